// What the extension host loads in place of the tests' own entry, which it then runs unchanged. The workbench mixes the extension
// host's console with its own log, so what the tests print goes to a file that the launcher reads out.
const { appendFileSync, writeFileSync } = require("node:fs");
const { Writable } = require("node:stream");
const { format } = require("node:util");

const file = process.env.BOTHWAYS_TEST_OUTPUT;
const put = (text) => appendFileSync(file, text);
// The extension host guards these with setters that do nothing; a plain assignment would go unheard.
const set = (owner, name, value) => Object.defineProperty(owner, name, { value, configurable: true, writable: true });
for (const name of ["log", "info", "debug", "warn", "error"]) set(console, name, (...words) => put(`${format(...words)}\n`));
for (const name of ["stdout", "stderr"]) {
  set(process, name, new Writable({
    decodeStrings: false,
    write(chunk, _encoding, done) {
      put(chunk);
      done();
    },
  }));
}

exports.run = async () => {
  await require(process.env.BOTHWAYS_TEST_ENTRY).run();
  // Says that the tests came to their end: of a host that died the workbench reports success.
  writeFileSync(`${file}.done`, "");
};
