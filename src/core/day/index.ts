// The door of `day`: days of the calendar as text, and counted.
export { addDays, dayCount, isDay } from "./day.ts";
