import { open } from "./ui/open.ts";

const root = document.getElementById("root");
if (!root) throw new Error("index.html has no element with the id root");
void open(root);
