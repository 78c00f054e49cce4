import { createRequire } from "node:module";
import { inflateSync } from "node:zlib";
import { expect, test } from "vitest";
import type { Paper } from "../../src/core/paper/index.ts";
import { paperAsHtml } from "../../src/shell/paper/html-paper.ts";
import { paperAsPdf } from "../../src/shell/paper/pdf-paper.ts";
import { must } from "../machines/branch-job.ts";
import { closedJob, madeFrom, workedJob } from "./samples.ts";

// The code as it is drawn, read back by an independent reader (jsqr) and held against EPC069-12.
const { default: jsqr } = createRequire(import.meta.url)("jsqr") as typeof import("jsqr");

interface Square {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** What a bank's app reads in these squares; the smallest of them is one module of the code. */
function readBack(squares: readonly Square[]): string | undefined {
  const [pixels, quiet] = [4, 4];
  const module = Math.min(...squares.map(({ size }) => size));
  const left = Math.min(...squares.map(({ x }) => x));
  const top = Math.min(...squares.map(({ y }) => y));
  const modules = Math.round(Math.max(...squares.map(({ x }) => x - left)) / module) + 1;
  const width = (modules + 2 * quiet) * pixels;
  const image = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const { x, y } of squares) {
    const [column, row] = [(x - left) / module + quiet, (y - top) / module + quiet].map(Math.round) as [number, number];
    for (let dy = 0; dy < pixels; dy++)
      for (let dx = 0; dx < pixels; dx++)
        image.fill(
          0,
          ((row * pixels + dy) * width + column * pixels + dx) * 4,
          ((row * pixels + dy) * width + column * pixels + dx) * 4 + 3,
        );
  }
  const read = jsqr(image, width, width);
  return read === null ? undefined : new TextDecoder("utf-8", { fatal: true }).decode(Uint8Array.from(read.binaryData));
}

function squaresOfHtml(html: string): readonly Square[] {
  const [, path = ""] = /<path fill="black" d="([^"]+)"/.exec(html) ?? [];
  return [...path.matchAll(/M(\d+),(\d+)h(\d+)v/g)].map(([, x, y, size]) => ({
    x: Number(x),
    y: Number(y),
    size: Number(size),
  }));
}

/** Rectangles filled with black in what the PDF draws. */
function squaresOfPdf(pdf: Uint8Array): readonly Square[] {
  const streams = Buffer.from(pdf)
    .toString("latin1")
    .matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g);
  const drawn = [...streams].map(([, packed = ""]) => inflateSync(Buffer.from(packed, "latin1")).toString("latin1"));
  const black = /([\d.]+) ([\d.]+) ([\d.]+) \3 re\n\/DeviceRGB cs\n0 0 0 scn/g;
  return drawn
    .flatMap((text) => [...text.matchAll(black)])
    .map(([, x, y, size]) => ({ x: Number(x), y: Number(y), size: Number(size) }));
}

const LONG = "Wilhelmina Featherstonehaugh-Ćwiklińska, Ostermoor, früher Ravenscroft & Söhne";

test.each([
  ["the example's invoice", undefined],
  ["a holder with letters of two bytes, cut at 70 signs", LONG],
])("%s: the printed code and the one in the mail hold the eleven lines", async (_what, holder) => {
  const worked = workedJob(closedJob("dryer-mended"));
  const { letterhead } = worked.shop;
  const bank = letterhead?.bank;
  if (letterhead === undefined || bank === undefined) throw new Error("the demonstration shop has an account");
  const shop =
    holder === undefined ? worked.shop : { ...worked.shop, letterhead: { ...letterhead, bank: { ...bank, holder } } };
  const paper: Paper = must(madeFrom({ ...worked, shop }, "invoice", { number: "F-0007" })).paper;
  const lines = [
    "BCD",
    "002",
    "1",
    "SCT",
    "",
    (holder ?? bank.holder).slice(0, 70),
    bank.account,
    "EUR133.40",
    "",
    "RF50F0007",
  ];
  expect(readBack(squaresOfHtml(paperAsHtml(paper, { size: "A4" })))?.split("\n")).toEqual(lines);
  expect(readBack(squaresOfPdf(await paperAsPdf(paper, { size: "A4" })))?.split("\n")).toEqual(lines);
});
