import { demoJobsWorked } from "./demo.ts";

demoJobsWorked("laptop", ["washing-machine", "dishwasher"], "there");
