import { type ReactNode, Suspense, useState } from "react";
import { text } from "../english.ts";

/** Something folded behind one line. What is inside is fetched and drawn when it is first opened, and then stays. */
export function Folded({ says, children }: { readonly says: string; readonly children: ReactNode }) {
  const [opened, setOpened] = useState(false);
  return (
    <details onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>{says}</summary>
      {opened && <Suspense fallback={<p role="status">{text.opening}</p>}>{children}</Suspense>}
    </details>
  );
}
