import { useMemo } from "react";
import type { JobRecord } from "../../../core/ledger/index.ts";
import { shelfTagOf } from "../../../core/paper/index.ts";
import { readOwnShop } from "../../../core/remedy/index.ts";
import type { BenchView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { PaperSheet } from "../papers/paper-sheet.tsx";
import { useApp } from "../shell/app-state.tsx";
import { verdictInWords } from "./words.ts";

/** The tag of a part as a paper: its grade, and every test of its last round behind that. */
export function TagPaper({ record, view }: { readonly record: JobRecord; readonly view: BenchView }) {
  const { own } = useApp().settings;
  const paper = useMemo(() => {
    const shop = own === undefined ? undefined : readOwnShop(JSON.stringify(own));
    const last = view.rounds.at(-1);
    return shelfTagOf({
      number: record.head.number,
      date: record.touched.slice(0, 10),
      part: view.says.charAt(0).toUpperCase() + view.says.slice(1),
      ratings: view.ratings.map(({ says, value }) => `${says} ${value}`).join(", "),
      grade: text.bench.grades[view.grade.says].toLowerCase(),
      cleaned: view.grade.cleaned,
      tests: view.test.steps.map((step) => {
        const line = last?.lines.get(step.index);
        return {
          what: step.says,
          shown: line?.shown ?? "",
          says: line === undefined ? text.bench.open : verdictInWords({ ...line, shown: "" }, step),
        };
      }),
      ...(shop?.ok === true ? { from: shop.value.letterhead } : {}),
    });
  }, [own, record, view]);
  return <PaperSheet paper={paper} bill={undefined} />;
}
