#!/usr/bin/env node
// Starts Davit. CommonJS that an old Node can read too, so that it can at least say what is wrong.
"use strict";

const oldestNode = 20;

function stop(words) {
  process.stderr.write(`${words}\n`);
  process.exitCode = 3;
}

if (Number(process.versions.node.split(".")[0]) < oldestNode) {
  stop(`davit needs Node ${oldestNode} or newer; this is Node ${process.versions.node}.`);
} else {
  const { existsSync } = require("node:fs");
  const { dirname, join } = require("node:path");
  const { pathToFileURL } = require("node:url");
  const entry = join(__dirname, "..", "dist", "main.js");
  if (existsSync(entry)) {
    import(pathToFileURL(entry).href)
      .then((main) => main.start())
      .catch((error) => stop(`davit could not start: ${error.message}`));
  } else {
    stop(`davit is not built: ${entry} is missing. Run \`npm ci\` in ${dirname(__dirname)}.`);
  }
}
