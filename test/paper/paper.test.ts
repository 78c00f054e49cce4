import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { seeded } from "../../src/core/chance/index.ts";
import { accountOf, closeOutOf, closingOf } from "../../src/core/ledger/index.ts";
import { keptPaper, makePaper, type Paper, paperFacts } from "../../src/core/paper/index.ts";
import { estimate } from "../../src/core/quantity/index.ts";
import { judgeSafety, METERED, type SafetyReading } from "../../src/core/safety/index.ts";
import { paperAsHtml } from "../../src/shell/paper/html-paper.ts";
import { pdfDefinition } from "../../src/shell/paper/pdf-definition.ts";
import { fontFiles, paperAsPdf } from "../../src/shell/paper/pdf-paper.ts";
import { paperAsText } from "../../src/shell/paper/text-paper.ts";
import { must } from "../rows/jobs.ts";
import { closedJob, madeFrom, rulesOf, SIGNATURES, samplePapers, sha256, workedJob } from "./samples.ts";

const samples = samplePapers();
const A4 = { size: "A4" } as const;

test.each([...samples])("the paper %s reads as the golden one", (name, paper) => {
  const file = `test/paper/golden/${name}.txt`;
  expect(`${paperAsText(paper)}\n`).toBe(readFileSync(file, "utf8"));
});

test("no line of a text is wider than the paper, and nothing of a table's cells is left out", () => {
  for (const [name, paper] of samples) {
    const text = paperAsText(paper);
    for (const line of text.split("\n")) expect(line.length, `${name}: ${line}`).toBeLessThanOrEqual(110);
    const words = new Set(text.split(/\s+/));
    for (const block of paper.blocks) {
      if (block.is !== "table") continue;
      for (const cell of block.rows.flat()) for (const word of cell.split(/\s+/)) expect(words).toContain(word);
    }
  }
});

describe("drawn twice", () => {
  test("the same ledger gives the same bytes, every paper in every form", async () => {
    for (const [name, again] of samplePapers()) {
      const first = samples.get(name) as Paper;
      expect(JSON.stringify(again)).toBe(JSON.stringify(first));
      expect(paperAsText(again)).toBe(paperAsText(first));
      expect(paperAsHtml(again, A4)).toBe(paperAsHtml(first, A4));
      if (!["report", "invoice", "notice-signed"].includes(name)) continue;
      const drawing = { ...A4, signatures: SIGNATURES };
      const [one, two] = [await paperAsPdf(first, drawing), await paperAsPdf(again, drawing)];
      expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
      expect(Buffer.from(one).subarray(0, 5).toString("latin1")).toBe("%PDF-");
    }
  });

  test("every sign of every sample is in both fonts, so that no box stands in its place", () => {
    const require = createRequire(createRequire(import.meta.url).resolve("pdfmake"));
    const fontkit: { openSync(file: string): { hasGlyphForCodePoint(code: number): boolean } } = require("fontkit");
    const signs = new Set([...samples.values()].flatMap((paper) => [...JSON.stringify(paper)]));
    expect(signs.size).toBeGreaterThan(60);
    for (const file of fontFiles()) {
      const font = fontkit.openSync(file);
      expect([...signs].filter((sign) => !font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0))).toEqual([]);
    }
  });

  test("a signature drawn on the glass stands over its line, and the line says so where the drawing is not at hand", async () => {
    const signed = samples.get("notice-signed") as Paper;
    const unsigned = samples.get("notice") as Paper;
    const drawn = { ...A4, signatures: SIGNATURES };
    const [svg = ""] = SIGNATURES.values();
    expect(paperAsHtml(signed, drawn)).toContain(
      `src="data:image/svg+xml,${encodeURIComponent(svg)}"`.replaceAll("'", "&#39;"),
    );
    expect(JSON.stringify(pdfDefinition(signed, drawn))).toContain(JSON.stringify(svg));
    expect((await paperAsPdf(signed, drawn)).length).toBeGreaterThan((await paperAsPdf(signed, A4)).length);
    for (const html of [paperAsHtml(signed, A4), paperAsHtml(unsigned, drawn)]) expect(html).not.toContain("<img");
    for (const text of [paperAsText(signed), paperAsHtml(signed, A4)])
      expect(text).toContain("the tenant, signed on the screen");
    expect(paperAsText(unsigned)).not.toContain("signed on the screen");
  });

  test("what a customer typed cannot become markup", () => {
    const paper: Paper = {
      kind: "report",
      title: "<script>",
      date: "2026-03-04",
      blocks: [{ is: "paragraph", text: `"&'<b>` }],
    };
    expect(paperAsHtml(paper, A4)).not.toMatch(/<script>|<b>/);
  });
});

describe("a paper that was handed over", () => {
  const later = [
    "did: {remedy: fit a new heater, on: heater, worked: 'yes', price: 99}",
    "charged: {what: part, says: a heater, amount: 99}",
  ];
  test.each(["report", "invoice", "safety", "guarantee"] as const)(
    "the %s stays as it was issued, whatever the ledger learns since; the next one is another",
    (kind) => {
      const made = must(madeFrom(workedJob(closedJob("dryer-mended")), kind, { number: "N-1" }));
      const event = {
        paper: kind,
        number: "N-1",
        date: "2026-03-04",
        hash: sha256(made.content),
        content: made.content,
      };
      const worked = workedJob(closedJob("dryer-mended", `issued: ${JSON.stringify(event)}`, ...later));
      const issued = accountOf(worked.job).issued.at(-1);
      if (issued === undefined) throw new Error("not issued");
      expect(must(keptPaper(issued, sha256))).toEqual(made.paper);
      const next = madeFrom(worked, kind, { number: "N-2" });
      // The heater was fitted after the tests: there is no guarantee on a job that may not be closed.
      if (kind === "guarantee") expect(next.ok).toBe(false);
      else expect(must(next).content).not.toBe(made.content);
    },
  );

  test("one changed sign, and it is no longer taken for the paper that was issued", () => {
    const { content } = must(madeFrom(workedJob(closedJob("dryer-mended")), "report"));
    const issued = { paper: "report", number: "1", date: "2026-03-04", hash: sha256(content) };
    expect(keptPaper({ ...issued, content }, sha256).ok).toBe(true);
    expect(keptPaper({ ...issued, content: content.replace("passed", "failed") }, sha256).ok).toBe(false);
    expect(keptPaper(issued, sha256).ok).toBe(false);
  });
});

test("400 drawn rows of tests (seed 5): no paper says passed of what was not measured or does not surely conform", () => {
  const random = seeded(5);
  const worked = workedJob(closedJob("dryer-mended"));
  const closing = closingOf(worked, rulesOf);
  const rules = rulesOf("uk-4");
  const whole = closeOutOf(worked, closing, rules);
  const safety = closing.safety;
  if (safety === undefined) throw new Error("no safety tests");
  let passed = 0;
  let refused = 0;
  for (let i = 0; i < 400; i++) {
    const readings: Partial<Record<(typeof METERED)[number], SafetyReading>> = {};
    for (const name of METERED) {
      const size = name === "insulation" ? 2e6 : name === "earth" ? 0.2 : 0.003;
      const value = size * random.uniform();
      const u = random.uniform() < 0.2 ? 0 : (value * random.uniform()) / 4;
      if (random.uniform() < 0.9)
        readings[name] = random.uniform() < 0.8 ? { value: estimate(value, { u }) } : { above: value };
    }
    const word = () => (random.uniform() < 0.8 ? ("pass" as const) : ("fail" as const));
    const findings = {
      readings,
      cannot: [],
      ...(random.uniform() < 0.9 ? { look: word() } : {}),
      ...(random.uniform() < 0.8 ? { function: word() } : {}),
    };
    const verdict = judgeSafety(rules, safety.setting, findings);
    const facts = paperFacts(worked, { closing, out: { ...whole, verdict }, rules }, { date: "2026-03-04" });
    const record = must(makePaper("safety", facts)).paper;
    const table = record.blocks.find((block) => block.is === "table");
    if (table?.is !== "table") throw new Error("no table of tests");
    table.rows.forEach((row, n) => {
      const { test: name } = verdict.lines[n] as (typeof verdict.lines)[number];
      if (!/\bpass/.test(row.join(" "))) return;
      passed++;
      if (name === "look" || name === "function") expect(findings[name]).toBe("pass");
      else {
        const reading = readings[name] as SafetyReading;
        const limit = verdict.lines[n]?.limit as number;
        if ("above" in reading) expect(name === "insulation" && reading.above >= limit).toBe(true);
        else {
          const reach = 1.64 * Math.hypot(...reading.value.parts.values());
          expect(reach).toBeGreaterThan(0);
          if (name === "insulation") expect(reading.value.value - reach).toBeGreaterThanOrEqual(limit);
          else expect(reading.value.value + reach).toBeLessThanOrEqual(limit);
        }
      }
    });
    // A report weighs the whole job anew: made for one row in forty.
    const report = i % 40 === 0 ? must(makePaper("report", facts)).paper.blocks : [];
    const said = JSON.stringify([record.blocks[0], report]);
    if (verdict.says !== "pass") {
      refused++;
      expect(said).not.toContain("This machine passed");
      expect(said).not.toContain("all passed");
    }
  }
  expect(passed).toBeGreaterThan(200);
  expect(refused).toBeGreaterThan(100);
});
