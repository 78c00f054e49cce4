import type { UnsafeNotice } from "../ledger/index.ts";
import type { Block, Paper } from "./paper.ts";
import { capital, machineFacts, type PaperFacts, paperToCustomer } from "./paper-facts.ts";

/** The notice about a dangerous machine whose repair was declined; `undefined` where none was given. */
export function unsafeNoticeOf(facts: PaperFacts): Paper | undefined {
  const notice = facts.closing.notices.at(-1);
  if (notice === undefined) return undefined;
  return paperToCustomer("notice", "Dangerous: do not use", facts, [
    {
      is: "paragraph",
      text: "This machine can hurt or kill. Do not plug it in, and do not let anybody else.",
      isStrong: true,
    },
    machineFacts(facts),
    { is: "heading", text: "What was found" },
    { is: "list", items: notice.found.map(capital) },
    { is: "heading", text: "What was done" },
    notice.done.length === 0
      ? { is: "paragraph", text: "Nothing could be done to make it safe." }
      : { is: "list", items: notice.done.map(capital) },
    { is: "heading", text: "What happens now" },
    {
      is: "list",
      items: [
        "It stays unplugged until it is repaired and has passed its safety tests, or is thrown away",
        "We do not connect it again on request",
        "Whoever gets it from you must be given this paper",
      ],
    },
    ...ending(notice),
    { is: "note", text: "A repair was offered and declined. This paper says so and changes none of your rights." },
  ]);
}

function ending({ ended, to, signature }: UnsafeNotice): Block[] {
  const whom = to ?? "the customer";
  switch (ended) {
    case "signed":
      return signature === undefined
        ? [{ is: "signatures", lines: ["Technician, date", `Read and understood: ${whom}, date`] }]
        : [
            {
              is: "signatures",
              lines: ["Technician, date", `Read and understood: ${whom}, signed on the screen`],
              drawn: signature,
            },
          ];
    case "refused to sign":
      return [
        { is: "paragraph", text: `Read out to ${whom}, who refused to sign.`, isStrong: true },
        { is: "signatures", lines: ["Technician, date", "Witness, if there was one, date"] },
      ];
    case "left with the customer":
      return [
        { is: "paragraph", text: `Left with ${whom}; not signed.`, isStrong: true },
        { is: "signatures", lines: ["Technician, date"] },
      ];
  }
}
