// How far numbers may move before something is found, and what stops them: of the number at the cursor,
// or of all where there is none.

import * as vscode from "vscode";
import { asked, savedPen } from "./run";
import type { Server } from "./server";

/** A number of `quillet room --format json`, as far as it is shown. */
export interface Room {
  name: string;
  line: number;
  column: number;
  written: string;
  stretches: [number, number][] | null;
  /** The sizes it may be, where only some are to be had. */
  sizes: number[] | null;
  with: string[];
  moves_nothing: boolean;
  below: Stop | null;
  above: Stop | null;
}

interface Stop {
  rule: string;
}

export async function room(server: Server): Promise<void> {
  const editor = await savedPen(server);
  if (editor === undefined) {
    return;
  }
  const { document, selection } = editor;
  const place = numberAt(document, selection.active);
  const of = place === undefined ? [] : ["--of", place];
  const given = ["room", document.uri.fsPath, "--format", "json", ...of];
  const title = "Moving numbers until something is found";
  const out = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title, cancellable: true },
    (_, token) => asked(server, document, "No number was moved", given, token),
  );
  if (out === undefined) {
    return;
  }
  const { numbers } = JSON.parse(out) as { numbers: Room[] };
  const rows = numbers.map((number) => ({
    label: number.name,
    description: `${number.written}: ${mayBe(number)}`,
    detail: stops(number),
    number,
  }));
  const chosen = await vscode.window.showQuickPick(rows, {
    title: "How far a number may move",
    placeHolder: "Choose a number to go to it",
    matchOnDescription: true,
    matchOnDetail: true,
  });
  if (chosen !== undefined) {
    await goTo(document, chosen.number);
  }
}

/** The place of the number that the cursor touches, as the program counts: from 1, by characters. */
export function numberAt(document: vscode.TextDocument, at: vscode.Position): string | undefined {
  const range = document.getWordRangeAtPosition(at, /(?<![\w.#-])\d[\w./-]*/);
  if (range === undefined) {
    return undefined;
  }
  const before = document.lineAt(at.line).text.slice(0, range.start.character);
  return `${at.line + 1}:${[...before].length + 1}`;
}

/** What it may be, in words. */
export function mayBe({ stretches, sizes, with: others, moves_nothing: idle }: Room): string {
  if (idle) {
    return "moves nothing";
  }
  const span = ([from, to]: [number, number]) => (from === to ? `${from} only` : `${from} to ${to}`);
  const all = (sizes?.map(String) ?? stretches?.map(span) ?? []).join(", ");
  const along = others.length === 0 ? "" : `${all === "" ? "" : "; "}with ${others.join(" and ")}`;
  return all + along || "as it is only";
}

/** What stops it on either side. */
export function stops({ below, above }: Room): string {
  const less = below === null ? [] : [`less: ${below.rule}`];
  const more = above === null ? [] : [`more: ${above.rule}`];
  return [...less, ...more].join("   ");
}

async function goTo(document: vscode.TextDocument, { line, column, written }: Room): Promise<void> {
  const before = [...document.lineAt(line - 1).text].slice(0, column - 1).join("");
  const start = new vscode.Position(line - 1, before.length);
  const selection = new vscode.Range(start, start.translate(0, written.length));
  await vscode.window.showTextDocument(document, { selection });
}
