// The door of `day`: days of the calendar as text, and counted.
export { addDays, addMonths, dayCount, isDay } from "./day.ts";
export { dayText } from "./day-text.ts";
