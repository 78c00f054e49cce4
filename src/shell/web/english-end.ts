/** Words of the end of a job: what verifies a repair, and the ways in which a job ends. */
export const englishEnd = {
  doneNote: "Done:",
  keys: {
    mended: "Mended and verified: end of the job",
    waiting: "Leave it waiting, made safe",
    stopped: "Stop here, without a repair",
  },
  states: {
    mended: "Mended and verified",
    waiting: "Left waiting, made safe",
    stopped: "Stopped without a repair",
  },
  notYet: (n: number) => (n === 1 ? "One of these is still to do." : `${n} of these are still to do.`),
  firstTest: "Before plugging in: look, earth, insulation",
  testFailed:
    "A safety test failed. It stays unplugged: put it right, write down what was done, then begin the tests again.",
  seeLater: "Not before look, earth and insulation have passed.",
  toTests: "Tested after repair, and close-out",
  toTestsShort: "Tested after repair",
  notice: "Dangerous, and the repair is declined: notice",
  waitingFor: "Say who or what is waited for first.",
  leaveTitle: "Leave without a finished repair",
  safe: [
    "Every connector is back on, nothing bare can be touched.",
    "It stands unplugged with a label on it, or it is safe to use as it is; the customer was told which.",
  ],
  close: (cover: string) => `Close ${cover}.`,
  why: "Who or what is waited for, or why not mended",
  was: "What was done",
  goOn: "Go on with it",
  reopen: "Open it again",
  stillAmiss: (repair: string) => `After the repair (${repair}) this is still amiss:`,
  ifNotRight: "If it is not right",
} as const;
