import { start } from "./ui/start.tsx";

const root = document.getElementById("root");
if (!root) throw new Error("index.html has no element with the id root");
void start(root);
