import { type Account, accountOf, type WorkedJob } from "../ledger/index.ts";
import { remediesIn } from "../remedy/index.ts";
import { mayBeFitted, type Shelf } from "./shelf.ts";
import { isUsed, partOf } from "./taken.ts";

/** A part that is to be ordered, or already is. */
export interface OrderLine {
  /** Part kind, or an assembly's id. */
  readonly part: string;
  readonly says: string;
  readonly count: number;
  /** Jobs that wait for it; none where the shelf is below its least. */
  readonly jobs: readonly string[];
  readonly ordered: boolean;
}

/** What a job with an accepted choice still waits for. */
interface Waiting {
  readonly job: string;
  readonly part: string;
  readonly on: string;
  readonly says: string;
  readonly account: Account;
}

/**
 * Parts to order: those of accepted choices that the shelf does not hold and the job has not got, then whatever lies
 * below its least.
 *
 * @param shelf  as it stands after the repairs of the jobs (`shelfAfter`)
 */
export function toOrder(shelf: Shelf, jobs: readonly WorkedJob[]): readonly OrderLine[] {
  const stock = new Map<string, number>();
  for (const item of shelf.items) {
    if (mayBeFitted(item))
      stock.set(`${item.state} ${item.part}`, (stock.get(`${item.state} ${item.part}`) ?? 0) + item.count);
  }
  const lines: OrderLine[] = [];
  const promised = new Map<string, number>();
  for (const { job, part, on, says, account } of jobs.flatMap(waitingOf)) {
    const order = account.ordered.find((one) => one.part === on || one.part === part);
    if (order?.arrived === true) continue;
    const given = promised.get(part) ?? 0;
    if (order === undefined && given < (stock.get(`new ${part}`) ?? 0)) {
      promised.set(part, given + 1);
      continue;
    }
    lines.push({ part, says, count: 1, jobs: [job], ordered: order !== undefined });
  }
  return [...together(lines), ...belowLeast(shelf, promised)];
}

/** Parts of the accepted choice that were not fitted yet. A used part is on the shelf or it is not: it is not ordered. */
function waitingOf(worked: WorkedJob): readonly Waiting[] {
  const account = accountOf(worked.job);
  const { accepted } = account;
  if (accepted === undefined || isUsed(accepted.choice)) return [];
  const fitted = new Set(worked.state.repairs.map(({ on }) => on));
  return remediesIn(accepted.choice).flatMap(({ on, remedy }) => {
    const part = fitted.has(on) ? undefined : partOf(worked, on, remedy);
    return part === undefined ? [] : [{ job: worked.job.id, part, on, says: `${on}: ${remedy}`, account }];
  });
}

function together(lines: readonly OrderLine[]): readonly OrderLine[] {
  const by = new Map<string, OrderLine>();
  for (const line of lines) {
    const key = `${line.part} ${line.ordered}`;
    const before = by.get(key);
    by.set(
      key,
      before === undefined ? line : { ...before, count: before.count + 1, jobs: [...before.jobs, ...line.jobs] },
    );
  }
  return [...by.values()];
}

/** What lies below its least in one place, what is promised to jobs taken off the van first. */
function belowLeast(shelf: Shelf, promised: ReadonlyMap<string, number>): readonly OrderLine[] {
  const left = new Map(promised);
  return shelf.items.flatMap(({ part, says, state, count, least, where }) => {
    if (state !== "new") return [];
    const gone = Math.min(count, left.get(part) ?? 0);
    left.set(part, (left.get(part) ?? 0) - gone);
    const missing = least - (count - gone);
    return missing > 0 ? [{ part, says: `${says}, for the ${where}`, count: missing, jobs: [], ordered: false }] : [];
  });
}
