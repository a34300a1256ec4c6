// esbuild puts a pen's text into the bundle.
declare module "*.quillet" {
  const text: string;
  export default text;
}
