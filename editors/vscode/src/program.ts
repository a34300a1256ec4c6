// Where the quillet program is: the setting, else the one bundled, the one on PATH, the one cargo installed.

import { accessSync, constants, statSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, isAbsolute, join, resolve } from "node:path";

export type Found = { path: string } | { path: undefined; why: string };

export interface Places {
  /** What the setting says; empty where nothing is said. */
  wanted: string;
  /** The open folder, which a relative path is read from. */
  folder: string | undefined;
  /** The folder in which an extension built for one platform carries its own. */
  bundled: string;
  /** PATH and the platform, for tests. */
  path?: string;
  platform?: NodeJS.Platform;
  /** The home folder, for tests. */
  home?: string;
}

/** Finds the program; says in words why there is none. */
export function findProgram(places: Places): Found {
  const windows = (places.platform ?? process.platform) === "win32";
  const name = windows ? "quillet.exe" : "quillet";
  const wanted = places.wanted.trim();
  if (wanted !== "") {
    const path = spelledOut(wanted, places.folder);
    return isProgram(path)
      ? { path }
      : {
          path: undefined,
          why: `the setting quillet.server.path says ${path}, where there is no program.`,
        };
  }
  const home = places.home ?? homedir();
  const cargo = join(home, ".cargo", "bin");
  const folders = [places.bundled, ...(places.path ?? process.env.PATH ?? "").split(delimiter), cargo];
  const path = folders
    .filter((folder) => folder !== "" && isAbsolute(folder))
    .map((folder) => join(folder, name))
    .find(isProgram);
  return path !== undefined
    ? { path }
    : {
        path: undefined,
        why:
          `there is no ${name} where it was looked for: the setting quillet.server.path is empty, none came ` +
          `with this extension (${places.bundled}), none is on your PATH, and none in ${cargo}.`,
      };
}

function spelledOut(path: string, folder: string | undefined): string {
  const home = path.replace(/^~(?=$|[\\/])/, homedir());
  const here = home.replaceAll("${workspaceFolder}", folder ?? "");
  return resolve(folder ?? homedir(), here);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
