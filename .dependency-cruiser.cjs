// The import table of the house: who may import whom. Whatever is not allowed here is an error.
const room = (name) => `^src/${name}/`;
const allow = (from, to) => ({ from: { path: `^src/${from}` }, to: { path: to } });

const units = room("units");
const geometry = room("geometry");
const lutherie = room("lutherie");
const drawing = room("drawing");
const lettering = room("lettering");
const parts = room("parts");
const contract = "^src/parts/(contract|made-of|finding|derived|making(?:s|-choices)?|wood|whole-checks|limits|part-name)\\.ts$";
const checks = room("checks");
const templates = room("templates");
const sheets = room("sheets");
const measuring = room("measuring");
const exporting = room("export");
const documents = room("document");
const store = room("store");
const report = room("report");
const ui = room("ui");
const library = "^node_modules/";

module.exports = {
  forbidden: [
    { name: "no-circular", severity: "error", from: { path: "^src" }, to: { circular: true } },
    { name: "not-to-unresolvable", severity: "error", from: { path: "^src" }, to: { couldNotResolve: true } },
    {
      name: "part-to-part",
      comment: "A part knows its own folder, never another part.",
      severity: "error",
      from: { path: "^src/parts/([a-z-]+)/" },
      to: { path: "^src/parts/[a-z-]+/", pathNot: "^src/parts/$1/" },
    },
    {
      name: "react-only-in-ui",
      severity: "error",
      from: { path: "^src", pathNot: "^src/(ui/|main\\.tsx)" },
      to: { path: "node_modules/(react|react-dom|react-konva|konva|@base-ui)/" },
    },
    {
      name: "state-library-only-in-store-and-ui",
      severity: "error",
      from: { path: "^src", pathNot: "^src/(ui|store)/" },
      to: { path: "node_modules/(zustand|zundo)/" },
    },
    {
      name: "node-only-in-cli",
      severity: "error",
      from: { path: "^src", pathNot: "^src/cli/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "browser-storage-only-in-document-storage",
      severity: "error",
      from: { path: "^src", pathNot: "^src/document/storage" },
      to: { path: "node_modules/idb/" },
    },
    {
      name: "clipper-behind-one-file",
      severity: "error",
      from: { path: "^src", pathNot: "^src/geometry/clipper\\.ts$" },
      to: { path: "node_modules/clipper-lib/" },
    },
    {
      name: "font-library-behind-one-file",
      severity: "error",
      from: { path: "^src", pathNot: "^src/lettering/font-library\\.ts$" },
      to: { path: "node_modules/opentype\\.js/" },
    },
    {
      name: "pdf-library-behind-one-file",
      severity: "error",
      from: { path: "^src", pathNot: "^src/export/pdf/writer\\.ts$" },
      to: { path: "node_modules/(@cantoo/pdf-lib|fontkit)/" },
    },
  ],
  allowedSeverity: "error",
  allowed: [
    { from: { path: "^(tests|vite\\.config|tests/)" }, to: {} },
    allow("main\\.tsx", `${ui}|${library}|\\.css$`),
    allow("units/", units),
    allow("geometry/", `${geometry}|${library}`),
    allow("lutherie/", `${geometry}|${lutherie}|${library}`),
    allow("drawing/", `${geometry}|${drawing}`),
    allow("lettering/", `${units}|${geometry}|${lettering}|${library}`),
    allow("parts/contract\\.ts", `${units}|${geometry}|${drawing}|${lettering}`),
    allow("parts/[a-z-]+/", `${parts}|${units}|${geometry}|${lutherie}|${drawing}|${lettering}`),
    allow("parts/[a-z-]+\\.ts", `${parts}|${units}|${geometry}|${lutherie}|${drawing}|${lettering}`),
    allow("checks/", `${checks}|${templates}|${contract}|${drawing}|${lutherie}|${geometry}`),
    allow("templates/", `${templates}|${contract}|${drawing}|${lutherie}|${geometry}`),
    allow("sheets/", `${sheets}|${templates}|${contract}|${drawing}|${lutherie}|${geometry}`),
    allow(
      "measuring/",
      `${measuring}|${documents}|${sheets}|^src/parts/[a-z-]+\\.ts$|${lutherie}|${drawing}|${geometry}|${units}`,
    ),
    allow("export/", `${exporting}|${measuring}|${sheets}|${templates}|${drawing}|${geometry}|${units}|${library}`),
    allow(
      "report/",
      `${report}|${documents}|${checks}|${sheets}|${templates}|^src/parts/[a-z-]+\\.ts$|${lutherie}|${drawing}|${geometry}|${units}`,
    ),
    allow("document/", `${documents}|${parts}|${units}|${library}`),
    allow("store/", `${store}|${documents}|${parts}|${checks}|${templates}|${sheets}|${lettering}|${units}|${library}`),
    {
      from: { path: ui },
      to: {
        path: `${ui}|${store}|${documents}|${report}|${measuring}|${exporting}|${sheets}|${templates}|${checks}|^src/parts/[a-z-]+\\.ts$|${drawing}|${lettering}|${geometry}|${units}|${library}|\\.css$`,
      },
    },
    {
      from: { path: room("cli") },
      to: { path: `^src/(?!ui/|store/)|${library}`, pathNot: "^$" },
    },
    { from: { path: room("cli") }, to: { dependencyTypes: ["core"] } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: {
      extensions: [".ts", ".tsx", ".js", ".mjs", ".json"],
      conditionNames: ["import", "node", "default", "types"],
    },
  },
};
