import { workedOnAPhone } from "./demo.ts";

workedOnAPhone(["tumble-dryer"], "none");
