import { workedOnAPhone } from "./demo.ts";

workedOnAPhone(["washing-machine", "dishwasher"], "there");
