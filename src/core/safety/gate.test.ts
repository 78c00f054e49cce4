import { expect, test } from "vitest";
import { closeOutGate, type GateFacts } from "./gate.ts";

const clear: GateFacts = {
  checks: [{ check: "nothing bridged", holds: true }],
  unanswered: [],
  owed: [],
  verdict: { says: "pass", lines: [{ test: "look", says: "pass" }] },
  disproved: [],
  isMended: true,
  notRight: [],
  owesNewTests: false,
  isUntouched: false,
};

test("everything so: the door is open", () => {
  expect(closeOutGate(clear)).toEqual({ isOpen: true, reasons: [] });
});

test("one thing not so is enough to shut it, and each names itself", () => {
  const changes: readonly (readonly [Partial<GateFacts>, string])[] = [
    [{ checks: [{ check: "nothing bridged", holds: false }] }, "check failed"],
    [{ checks: [{ check: "nothing bridged", holds: undefined }] }, "not checked"],
    [{ unanswered: ["one-shot"] }, "why did it open"],
    [{ owed: ["earth tag"] }, "not put back"],
    [{ disproved: ["door lock"] }, "disproved"],
    [{ isMended: false }, "nothing mended"],
    [{ notRight: ["Does the drum turn?"] }, "not seen right"],
    [{ owesNewTests: true }, "energised early"],
    [{ verdict: undefined }, "tests not begun"],
    [{ verdict: { says: "fail", lines: [{ test: "earth", says: "fail" }] } }, "test failed"],
    [{ verdict: { says: "not finished", lines: [], next: "insulation" } }, "tests not finished"],
  ];
  for (const [change, is] of changes) {
    const { isOpen, reasons } = closeOutGate({ ...clear, ...change });
    expect(isOpen).toBe(false);
    expect(reasons.map((reason) => reason.is)).toEqual([is]);
  }
});

test("what can kill is told first", () => {
  const { reasons } = closeOutGate({
    ...clear,
    owed: ["seal"],
    checks: [{ check: "nothing bridged", holds: false }],
    verdict: { says: "fail", lines: [{ test: "earth", says: "fail" }] },
  });
  expect(reasons.map(({ is }) => is)).toEqual(["check failed", "test failed", "not put back"]);
});

test("who opened nothing and mended no part owes no test and no check; what was found bad all the same shuts it", () => {
  const checks = [
    { check: "nothing bridged", holds: undefined },
    { check: "protectors in place", holds: undefined },
  ];
  const untouched = { ...clear, checks, verdict: undefined, isUntouched: true };
  expect(closeOutGate(untouched)).toEqual({ isOpen: true, reasons: [] });
  expect(closeOutGate({ ...untouched, checks: [{ check: "nothing bridged", holds: false }] }).isOpen).toBe(false);
  const failed = { says: "fail", lines: [{ test: "earth", says: "fail" }] } as const;
  expect(closeOutGate({ ...untouched, verdict: failed }).isOpen).toBe(false);
});
