// The door of `paper`: the papers that are handed over, before anything is drawn.
export { issuedPaper, keptPaper, type MadePaper } from "./kept-paper.ts";
export { type Credit, type JobPaperKind, makePaper } from "./make-paper.ts";
export { type PaperOffer, paperOffers, type WhyNot } from "./offers.ts";
export {
  type Block,
  type Column,
  drawnIn,
  PAPER_KINDS,
  type Paper,
  type PaperKind,
  type Sender,
  type Table,
} from "./paper.ts";
export { type PaperFacts, paperFacts } from "./paper-facts.ts";
export { provedText } from "./proof-words.ts";
export { shelfTagOf, type TagFacts } from "./shelf-tag.ts";
export { limitText, readingText } from "./test-words.ts";
