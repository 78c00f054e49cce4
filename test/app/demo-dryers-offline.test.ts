import { demoJobsWorked } from "./demo.ts";

demoJobsWorked("phone", ["tumble-dryer"], "none");
