import { demoJobsWorked } from "./demo.ts";

demoJobsWorked("laptop", ["tumble-dryer"], "there");
