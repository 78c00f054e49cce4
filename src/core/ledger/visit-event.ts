/** A visit that was agreed, moved, or called off. */
export interface VisitEvent {
  readonly kind: "visit";
  /** Which visit of this job, from 1. */
  readonly number: number;
  /** Absent: it was called off. */
  readonly when?: {
    /** RFC 3339 with the distance from UTC: 2026-03-04T10:30+01:00 */
    readonly at: string;
    readonly minutes: number;
  };
}
