/** Words of the page about parts. */
const english = {
  title: "Parts",
  about:
    "What accepted choices wait for, and what lies below its least, is to be ordered. What is put there or taken is written down like a job's events.",
  working: "Working out what the jobs use ...",
  toOrder: "To order",
  nothing: "Nothing is to be ordered.",
  orderLine: (count: number, part: string) => `${count} × ${part}`,
  forJobs: (jobs: readonly string[]) => `for ${jobs.join(", ")}`,
  ordered: "ordered",
  order: (part: string) => `Ordered: ${part}`,
  arrived: (part: string) => `It has arrived: ${part}`,
  places: { van: "In the van", bench: "On the bench", store: "In the store" },
  place: "Where",
  placeWords: { van: "van", bench: "bench", store: "store" },
  empty: "Nothing lies here.",
  atLeast: (least: number) => `at least ${least}`,
  grades: {
    good: "tested good",
    "not faulted": "tested, no fault found",
    doubtful: "doubtful: not to be fitted",
    "not for use": "not for use",
    "not finished": "test not finished: not to be fitted",
  },
  one: {
    more: (says: string) => `One more: ${says}`,
    less: (says: string) => `One fewer: ${says}`,
  },
  lacking: (part: string, job: string) => `Job ${job} used ${part}, and the shelf held none: count again.`,
  add: "Put new parts on the shelf",
  part: "Which part",
  says: "What is written on it",
  howMany: "How many",
  least: "How many should lie here at least",
  put: "Put them there",
  history: "What was put there and taken",
  noHistory: "Nothing was written down yet.",
  moved: (by: number, says: string, place: string) =>
    by < 0 ? `${-by} × ${says} taken from the ${place}` : `${by} × ${says} put in the ${place}`,
  should: (least: number) => `at least ${least} should lie there`,
  usedBy: (part: string, job: string) => `${part} used on job ${job}`,
  back: "taken back",
  takeBack: (what: string) => `Take back: ${what}`,
  needPart: "Which part is it?",
  needCount: "A whole number.",
} as const;

/** The words in use. */
export const shelfText: typeof english = english;
