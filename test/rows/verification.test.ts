// How a mended job is led to its end: what is still owed to the repair, and when nothing is.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planOf, verificationOf } from "../../src/core/ledger/index.ts";
import { verificationInWords, verificationList } from "../../src/shell/words/verification.ts";
import { workedJob } from "./jobs.ts";

const hums = readFileSync(new URL("../../examples/hums.yaml", import.meta.url), "utf8");
const damp = readFileSync(new URL("../../examples/always-damp.yaml", import.meta.url), "utf8");
const LESS = { pairsAtMost: 200, candidatesAtMost: 1 };
const found = `  - opened: back panel
  - isolated: two-pole tester
  - measured: {from: run-cap.a, to: run-cap.b, farads: 3.1µ, freed: [run-cap]}
`;
const mended = `${found}  - did: {remedy: fit a new run capacitor, on: run capacitor, worked: "yes", price: 20}\n`;
const of = (events: string) => verificationOf(workedJob(hums + events, LESS));

describe("a dryer that hummed, its capacitor fitted new", () => {
  it("has no verification before the repair, nor when the repair is said to have failed", () => {
    expect(of(found)).toBeUndefined();
    expect(of(`${found}  - did: {remedy: new, on: run-cap, worked: "no"}\n`)).toBeUndefined();
  });

  it("owes one reading, what was told amiss, and the one cover", () => {
    const owed = of(mended);
    expect(owed?.finished).toBe(false);
    expect(owed?.toRead.map(({ reading }) => reading.probe.from)).toEqual(["run-cap.a"]);
    expect(owed?.toSee.map(({ sign, was }) => `${sign.id}: ${was}`)).toEqual(["drum turns: no", "hums only: yes"]);
    expect(owed?.putBack.map(({ access }) => access)).toEqual(["back"]);
  });

  const verified = `${mended}  - measured: {from: run-cap.a, to: run-cap.b, farads: 8.1µ, freed: [run-cap]}
  - closed: back
  - energised: RCD lead
  - seen: {drum turns: "yes", hums only: "no"}
`;

  it("is verified when both were done, and then says what is left before leaving", () => {
    const done = of(verified);
    expect(done).toMatchObject({ finished: true, toRead: [], toSee: [], stillAmiss: [], putBack: [] });
    if (done !== undefined) expect(verificationInWords(done, []).join("\n")).toMatch(/^Verified .*Before you leave/);
  });

  it("is not verified while the drum is seen standing", () => {
    const still = of(verified.replace('drum turns: "yes"', 'drum turns: "no"'));
    expect(still?.finished).toBe(false);
    expect(still?.stillAmiss).toMatchObject([{ kind: "sign", sign: "drum turns" }]);
  });
});

describe("a lock that failed 2 times of 8, fitted new", () => {
  const lock = readFileSync(new URL("../../examples/lock-now-and-then.yaml", import.meta.url), "utf8");
  const fitted =
    '\n  - did: {remedy: fit a new lock, on: lock, worked: "yes"}\n  - seen: {clicks again and again: "no", drum turns: "yes"}\n';
  const counted = (good: number, of: number) =>
    `  - counted: {from: X2.1, to: X2.3, good: ${good}, of: ${of}, in: lock}\n`;
  const owed = (events: string) => verificationOf(workedJob(lock + fitted + events, LESS));

  it("owes 11 operations without a failure, since 0.75^11 is under 1 in 20; seen to start once is not enough", () => {
    const list = owed("");
    expect(list?.toCount.map(({ operations }) => operations)).toEqual([11]);
    expect(list?.finished).toBe(false);
    if (list === undefined) return;
    const words = verificationInWords(list, []).join("\n");
    expect(words).toMatch(/Work it 11 times, none may fail/);
    expect(words).toMatch(/- counted: \{from: X2.1, to: X2.3, in: lock, good: \?, of: \?\}/);
  });

  it("owes the rest after 4 good of 4, nothing after 11 of 11, and is amiss after 10 of 11", () => {
    expect(owed(counted(4, 4))?.toCount.map(({ operations }) => operations)).toEqual([7]);
    expect(owed(counted(11, 11))).toMatchObject({ finished: true, toCount: [], stillAmiss: [] });
    expect(owed(counted(10, 11))).toMatchObject({ finished: false, stillAmiss: [{ kind: "count", good: 10 }] });
  });
});

it("advice leaves nothing to measure", () => {
  const advised = verificationOf(workedJob(`${damp}  - did: {remedy: advise, on: load, worked: "yes"}\n`, LESS));
  expect(advised).toMatchObject({ adviceOnly: true, toRead: [], toSee: [], finished: true });
});

describe("a thermal fuse that blew for a reason nobody knows, fitted new", () => {
  it("stays unplugged until the reason is known: that stands before everything else", () => {
    const victim = readFileSync(new URL("../../examples/cold-victim-of-lint.yaml", import.meta.url), "utf8");
    const worked = workedJob(`${victim}\n  - did: {remedy: fit a new one, on: one-shot, worked: "yes"}\n`, LESS);
    const owed = verificationOf(worked);
    const { unanswered } = planOf(worked, "machine");
    expect(unanswered.map(({ protector }) => protector)).toEqual(["one-shot"]);
    const [first] = owed === undefined ? [] : verificationList(owed, unanswered).items;
    expect(first).toMatchObject({ do: "act", says: expect.stringMatching(/^Stays unplugged until it is known why/) });
  });
});
