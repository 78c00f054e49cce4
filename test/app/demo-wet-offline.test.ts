import { demoJobsWorked } from "./demo.ts";

demoJobsWorked("phone", ["washing-machine", "dishwasher"], "none");
