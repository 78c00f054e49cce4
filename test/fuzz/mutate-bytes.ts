import type { Random } from "../../src/core/chance/index.ts";
import { oneOf } from "./odd-values.ts";

type BytesMutation = (text: string, at: number) => string;

/** The text as a bad copy, another system or a broken connection would leave it. */
export function mutateBytes(text: string, random: Random): { readonly text: string; readonly how: string } {
  const at = Math.floor(random.uniform() * (text.length + 1));
  const change = oneOf(MUTATIONS, random) ?? cutShort;
  return { text: change(text, at), how: `${change.name} at ${at}` };
}

function byteOrderMark(text: string): string {
  return `\ufeff${text}`;
}

function carriageReturns(text: string): string {
  return text.replaceAll("\n", "\r\n");
}

function onlyCarriageReturns(text: string): string {
  return text.replaceAll("\n", "\r");
}

function nul(text: string, at: number): string {
  return `${text.slice(0, at)}\u0000${text.slice(at)}`;
}

function loneSurrogate(text: string, at: number): string {
  return `${text.slice(0, at)}\ud800${text.slice(at)}`;
}

function longLine(text: string, at: number): string {
  return text.slice(0, at) + "y".repeat(300_000) + text.slice(at);
}

function oneLine(text: string): string {
  return text.replaceAll("\n", " ");
}

function tabs(text: string): string {
  return text.replaceAll("  ", "\t");
}

function cutShort(text: string, at: number): string {
  return text.slice(0, at);
}

function cutFront(text: string, at: number): string {
  return text.slice(at);
}

function twice(text: string): string {
  return text + text;
}

function twoDocuments(text: string): string {
  return `${text}\n---\n${text}`;
}

const MUTATIONS: readonly BytesMutation[] = [
  byteOrderMark,
  carriageReturns,
  onlyCarriageReturns,
  nul,
  loneSurrogate,
  longLine,
  oneLine,
  tabs,
  cutShort,
  cutShort,
  cutFront,
  twice,
  twoDocuments,
];
