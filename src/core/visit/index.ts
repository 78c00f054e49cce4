// The door of `visit`: an appointment as a calendar entry, a customer as a contact card.
export { type CalendarVisit, calendarEntry } from "./calendar-entry.ts";
export { contactCard } from "./contact-card.ts";
export { customerCard, type PlannedVisit, type VisitFacts, visitEntry, visitsOf } from "./planned.ts";
