import { useEffect, useState } from "react";
import { Link } from "wouter";
import { askEngine } from "../engine/client.ts";
import type { Family } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { MachineDrawing } from "../jobs/machine-drawing.tsx";

/** The sheets that ship, each a way in. */
export function SheetsScreen() {
  const [families, setFamilies] = useState<readonly Family[]>();
  useEffect(() => {
    askEngine({ do: "families" }).then(setFamilies);
  }, []);
  return (
    <main className="column">
      <h1>{text.sheets.title}</h1>
      <p>{text.sheets.about}</p>
      <ul className="ledger">
        {(families ?? []).map(({ name, title }) => (
          <li key={name}>
            <Link href={`/sheets/${name}`} className="line sheet-line">
              <MachineDrawing family={name} />
              <span className="line-main">{title}</span>
            </Link>
          </li>
        ))}
      </ul>
      <p role="status">{families === undefined ? text.sheets.reading : ""}</p>
    </main>
  );
}
