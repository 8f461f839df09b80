// The floors of the house (see DEVELOPERS.md): a file imports only from its own floor or those below.
// Each rule names a room and what it must not know.
const never = (name, from, to, comment) => ({ name, severity: "error", comment, from: { path: from }, to: { path: to } });

module.exports = {
  forbidden: [
    { name: "no-circles", severity: "error", comment: "Two files that need each other are one subject: merge or split them.",
      from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } } },
    never("grammar-knows-only-text", "^grammar/", "^(server|client)/", "The grammar knows text, never rooms."),
    never("physics-knows-only-numbers", "^server/physics/", "^(grammar|client|server/(?!physics/))", "Physics are pure functions on SI numbers."),
    never("model-knows-no-graph", "^server/model/", "^(client|server/((signal|checks|missing|fixes|views|features|workspace|protocol|disk|cli)/|[^/]+[.]ts))", "The model knows the tree, not what is computed from it."),
    never("signal-knows-no-text", "^server/signal/", "^(client|server/((checks|missing|fixes|views|features|workspace|protocol|disk|cli)/|[^/]+[.]ts))", "The signal graph knows a setup, never checks or words."),
    never("checks-know-no-protocol", "^server/(checks|fixes|missing)/", "^(client|server/(views|features|workspace|protocol|disk|cli|main))", "Checks and fixes know setup, graph and physics."),
    never("checks-know-no-study", "^server/checks/", "^server/(fixes/|(?!finding[.]ts)[^/]+[.]ts)", "A check is asked by the study; it never asks back."),
    never("views-know-a-study", "^server/views/", "^(client|server/((cli|fixes|features|workspace|protocol|disk)/|main))", "Views are pure text from a study."),
    never("features-know-no-protocol", "^server/features/", "^(client|vscode-|node_modules/vscode-|server/((cli|workspace|protocol|disk|views)/|main))", "A feature is asked with a text and a place; it knows no connection."),
    never("the-workspace-knows-no-protocol", "^server/workspace/", "^(client|vscode-|node_modules/vscode-|server/((cli|protocol|disk|features|views)/|main))", "Which texts are open is known without a connection."),
    never("the-disk-knows-no-editor", "^server/disk/", "^(client|server/((cli|workspace|protocol|features|views)/|main))", "Reading files is one job."),
    never("the-protocol-runs-anywhere", "^server/protocol/", "^(client|server/((cli|disk)/|main))", "The connection gets its disk from the entry, so that it can do without one."),
    never("the-client-is-thin", "^client/(?!preview/)", "^(grammar|server/(?!protocol/messages))", "The extension knows the messages, and asks the server for everything else."),
    never("the-page-knows-no-editor", "^client/preview/", "^(vscode|node_modules/vscode-|grammar|client/(?!preview/|verdict-words)|server/(?!protocol/messages|views/(svg|flow|plan|perspective|elevation)/))", "The page of the preview draws; it knows the look of a drawing and its messages."),
    never("nobody-imports-the-editor", "^(grammar|server)/", "^vscode$", "The editor is known to the client alone."),
    never("nobody-imports-the-terminal", "^(grammar|client|server/(?!cli/))", "^server/cli/", "The command line is the top floor."),
    { name: "the-browser-reaches-no-disk", severity: "error", comment: "In a browser there are no files, paths or processes; the editor reads for the server.",
      from: { path: "^(server/main-browser|client/extension-browser)[.]ts$" }, to: { reachable: true, path: "^(server/(disk|cli|main-node)|(node:)?(fs|path|child_process|os|net|http|https|url|util|worker_threads)(/|$))" } },
    never("only-the-entries-read-files", "^(grammar|client|server/(?!(cli|disk)/|main-node))", "^(node:)?(fs|path|child_process|os|net|http|https|worker_threads)(/|$)", "Everything below the entries also runs in a browser."),
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    exclude: { path: "node_modules" },
  },
};
