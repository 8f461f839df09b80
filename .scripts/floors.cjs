// The floors of the house (see DEVELOPERS.md): a file imports only from its own floor or those below.
// Each rule names a room and what it must not know.
const never = (name, from, to, comment) => ({ name, severity: "error", comment, from: { path: from }, to: { path: to } });

module.exports = {
  forbidden: [
    { name: "no-circles", severity: "error", comment: "Two files that need each other are one subject: merge or split them.",
      from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } } },
    never("grammar-knows-only-text", "^grammar/", "^(server|client)/", "The grammar knows text, never rooms."),
    never("physics-knows-only-numbers", "^server/physics/", "^(grammar|client|server/(?!physics/))", "Physics are pure functions on SI numbers."),
    never("model-knows-no-graph", "^server/model/", "^(client|server/((signal|checks|fixes|views|cli)/|[^/]+[.]ts))", "The model knows the tree, not what is computed from it."),
    never("signal-knows-no-text", "^server/signal/", "^(client|server/((checks|fixes|views|cli)/|[^/]+[.]ts))", "The signal graph knows a setup, never checks or words."),
    never("checks-know-no-protocol", "^server/(checks|fixes)/", "^(client|server/(views|cli))", "Checks and fixes know setup, graph and physics."),
    never("checks-know-no-study", "^server/checks/", "^server/(fixes/|(?!finding[.]ts)[^/]+[.]ts)", "A check is asked by the study; it never asks back."),
    never("views-know-a-study", "^server/views/", "^(client|server/(cli|fixes)/)", "Views are pure text from a study."),
    never("nobody-imports-the-terminal", "^(grammar|client|server/(?!cli/))", "^server/cli/", "The command line is the top floor."),
    never("only-the-command-line-reads-files", "^(grammar|server/(?!cli/))", "^(node:)?(fs|path|child_process|os|net|http|https|worker_threads)(/|$)", "Everything below the command line also runs in a browser."),
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    exclude: { path: "node_modules" },
  },
};
