import type { JobHead } from "../../../core/ledger/index.ts";
import type { Ledger } from "../../store/ledger.ts";
import { askEngine } from "../engine/client.ts";

/** Puts the demonstration's jobs into the ledger, each as its file tells it. */
export async function addExamples(ledger: Ledger): Promise<void> {
  for (const { name, text } of await askEngine({ do: "examples" })) {
    const { format: _format, job, events = [], customer, "return-of": returnOf, ...rest } = JSON.parse(text) as Written;
    const head: JobHead = {
      number: String(job),
      ...rest,
      ...(customer?.authority === undefined ? {} : { authority: customer.authority }),
      ...(returnOf === undefined ? {} : { returnOf }),
      customer: name.replaceAll("-", " "),
    };
    await ledger.begin(
      head,
      events.flatMap((event) =>
        Object.entries(event)
          .filter(([kind]) => kind !== "at" && kind !== "by")
          .map(([kind, body]) => ({ kind, body })),
      ),
    );
  }
}

type Written = Omit<JobHead, "number" | "customer"> & {
  readonly format: string;
  readonly job: string;
  readonly customer?: { readonly authority?: number };
  readonly "return-of"?: string;
  readonly events?: readonly Readonly<Record<string, unknown>>[];
};
