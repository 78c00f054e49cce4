import { addDays } from "../day/index.ts";
import { contentLine, parameterValue, textValue } from "./content-line.ts";

/** A visit as it stands now. */
export interface CalendarVisit {
  /** The same for every version of this visit, all over the world: `26-0101-1@ferrybank.example`. */
  readonly uid: string;
  /** How often it was changed since it was first given away. */
  readonly sequence: number;
  readonly isCancelled: boolean;
  /** Begin and end, and when this version was made: seconds since 1970, UTC. */
  readonly begins: number;
  readonly ends: number;
  readonly made: number;
  readonly summary: string;
  readonly place?: string;
  readonly description?: string;
  readonly organizer?: { readonly name: string; readonly email: string };
}

/**
 * A visit as a calendar entry that any calendar takes: the same visit moved keeps its place, one that is cancelled is taken out.
 * Times are in UTC, so no table of time zones is needed.
 *
 * @source RFC 5545 (iCalendar), 3.4, 3.6.1, 3.8; RFC 5546 (iTIP), 3.2.1 and 3.2.5
 */
export function calendarEntry(visit: CalendarVisit): string {
  const { organizer, place, description } = visit;
  return [
    contentLine("BEGIN", "VCALENDAR"),
    contentLine("VERSION", "2.0"),
    contentLine("PRODID", "-//Faultwright//visit//EN"),
    // Both methods ask for an organizer.
    ...(organizer === undefined ? [] : [contentLine("METHOD", visit.isCancelled ? "CANCEL" : "PUBLISH")]),
    contentLine("BEGIN", "VEVENT"),
    contentLine("UID", textValue(visit.uid)),
    contentLine("SEQUENCE", String(visit.sequence)),
    contentLine("DTSTAMP", utc(visit.made)),
    contentLine("DTSTART", utc(visit.begins)),
    contentLine("DTEND", utc(visit.ends)),
    contentLine("STATUS", visit.isCancelled ? "CANCELLED" : "CONFIRMED"),
    contentLine("SUMMARY", textValue(visit.summary)),
    ...(place === undefined ? [] : [contentLine("LOCATION", textValue(place))]),
    ...(description === undefined ? [] : [contentLine("DESCRIPTION", textValue(description))]),
    ...(organizer === undefined
      ? []
      : [contentLine(`ORGANIZER;CN=${parameterValue(organizer.name)}`, `mailto:${address(organizer.email)}`)]),
    contentLine("END", "VEVENT"),
    contentLine("END", "VCALENDAR"),
  ].join("");
}

/** A URI holds no blanks, quotes or breaks. */
function address(email: string): string {
  return email.replaceAll(/[\s"<>\\]/g, "");
}

/** @source RFC 5545, 3.3.5, form 2: 20260304T093000Z */
function utc(seconds: number): string {
  const day = Math.floor(seconds / 86_400);
  const left = Math.floor(seconds - day * 86_400);
  const two = (value: number): string => String(value).padStart(2, "0");
  const clock = `${two(Math.floor(left / 3600))}${two(Math.floor(left / 60) % 60)}${two(left % 60)}`;
  return `${addDays("1970-01-01", day).replaceAll("-", "")}T${clock}Z`;
}
