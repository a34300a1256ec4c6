// What the checker answers: the shapes of its JSON. Places are UTF-16 units from a file's beginning.

export interface Stretch {
  file: string;
  from: number;
  to: number;
}

export type Severity = "error" | "warning" | "note";

export interface Finding extends Stretch {
  rule: string;
  severity: Severity;
  message: string;
  hint: string | null;
  pens: string[];
  labels: (Stretch & { message: string })[];
}

export interface Change {
  from: number;
  to: number;
  text: string;
}

/** Edits, by file. */
export type Changes = Record<string, Change[]>;

export interface Action {
  title: string;
  kind: "fix" | "mend" | "rewrite" | "extract";
  preferred: boolean;
  edits: Changes;
}

export interface Choice {
  label: string;
  snippet: string | null;
  kind: string;
  detail: string;
  about: unknown;
}

export interface Completion {
  from: number;
  to: number;
  choices: Choice[];
}

export interface Hover {
  from: number;
  to: number;
  text: string;
}

export interface Inlay {
  at: number;
  text: string;
  about: string;
}

export interface Token {
  from: number;
  to: number;
  kind: string;
  defines: boolean;
}

export interface Preview {
  name: string;
  title: string;
  pictures: { says: string; svg: string }[];
  legend: string[];
  measures: [string, string][];
}

export interface Symbol {
  name: string;
  detail: string;
  from: number;
  to: number;
  inner: Symbol[];
}

/** A file to be saved; its bytes as base64. */
export interface Made {
  name: string;
  bytes: string;
}

export interface Compared {
  html: string;
  comparison: unknown;
}
