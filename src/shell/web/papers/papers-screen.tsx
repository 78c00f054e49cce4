import "../look/papers.css";
import { Link } from "wouter";
import { papersText } from "../english-papers.ts";
import type { Write } from "../job/job-screen.tsx";
import { useWriting } from "../job/use-writing.ts";
import { Troubles } from "../shell/troubles.tsx";
import { KeptPage } from "./kept-page.tsx";
import { NewPaperPage } from "./new-paper-page.tsx";
import { PapersList } from "./papers-list.tsx";
import { PayPage } from "./pay-page.tsx";
import { PeoplePage } from "./people-page.tsx";
import { type OpenedPapers, usePapers } from "./use-papers.ts";

export interface PapersProps {
  readonly id: string;
  readonly papers: OpenedPapers;
  readonly write: Write;
}

/**
 * Papers and money of one job: the list, and behind it who is who (`people`), a payment (`pay`), a paper to be made
 * (`new`) and one that was handed over (`kept`).
 */
export function PapersScreen(props: {
  readonly id: string;
  readonly page: string | undefined;
  readonly which: string | undefined;
}) {
  const { id, page, which } = props;
  const { papers, broken } = usePapers(id);
  const { put, refused } = useWriting(id, papers?.record);
  return (
    <main className="column">
      <p className="way-back">
        {page === undefined ? (
          <Link href={`/job/${id}/done`}>‹ {papersText.back}</Link>
        ) : (
          <Link href={`/papers/${id}`}>‹ {papersText.toList}</Link>
        )}
      </p>
      <Troubles refused={refused} issues={[...(broken ?? []), ...(papers?.issues ?? [])]} />
      {papers !== undefined && <Page id={id} papers={papers} write={put} page={page} which={which} />}
    </main>
  );
}

function Page({
  page,
  which,
  ...props
}: PapersProps & { readonly page: string | undefined; readonly which: string | undefined }) {
  switch (page) {
    case "people":
      return <PeoplePage {...props} />;
    case "pay":
      return <PayPage {...props} />;
    case "new":
      return <NewPaperPage key={which} {...props} address={which ?? ""} />;
    case "kept":
      return <KeptPage {...props} event={which ?? ""} />;
    default:
      return <PapersList {...props} />;
  }
}
