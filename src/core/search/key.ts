import type { Problem } from "./problem.ts";

/**
 * Where the facts of a state stand in its key, a few 32-bit words: live causes, open groups that still matter, and for
 * each test 0 (not done, or no longer of use) or 1 + its outcome. Whole numbers only, so equal states are equal keys.
 */
export interface KeyLayout {
  readonly words: number;
  /** First word of the open groups. */
  readonly groupsAt: number;
  readonly testWord: Int32Array;
  readonly testShift: Int32Array;
  readonly testMask: Int32Array;
}

export function keyLayout(problem: Problem): KeyLayout {
  const { tests, outcomeStart } = problem;
  const groupsAt = Math.ceil(problem.causes / 32);
  const testWord = new Int32Array(tests);
  const testShift = new Int32Array(tests);
  const testMask = new Int32Array(tests);
  let word = groupsAt + Math.ceil(problem.groups / 32);
  let shift = 0;
  for (let j = 0; j < tests; j++) {
    const bits = 32 - Math.clz32(outcomeStart[j + 1] - outcomeStart[j]);
    if (shift + bits > 32) {
      word++;
      shift = 0;
    }
    testWord[j] = word;
    testShift[j] = shift;
    testMask[j] = (1 << bits) - 1;
    shift += bits;
  }
  return { words: word + 1, groupsAt, testWord, testShift, testMask };
}

/** 1 + outcome of test `j`, or 0. */
export function codeOf(layout: KeyLayout, key: Int32Array, j: number): number {
  return (key[layout.testWord[j]] >>> layout.testShift[j]) & layout.testMask[j];
}

export function setCode(layout: KeyLayout, key: Int32Array, j: number, code: number): void {
  key[layout.testWord[j]] |= code << layout.testShift[j];
}

export function isOpen(layout: KeyLayout, key: Int32Array, group: number): boolean {
  return ((key[layout.groupsAt + (group >>> 5)] >>> (group & 31)) & 1) === 1;
}

export function setOpen(layout: KeyLayout, key: Int32Array, group: number): void {
  key[layout.groupsAt + (group >>> 5)] |= 1 << (group & 31);
}
