/** Programs from outside npm that the tests need, and how they come onto a Debian machine. */
import { spawnSync } from "node:child_process";

/** Debian package → program it brings, and what needs it. */
const NEEDED = [
  { package: "chromium", program: "chromium", for: "opening the report as a reader would" },
  { package: "redis-server", program: "redis-server", for: "batches that workers compute from a queue" },
];

const has = (program) => spawnSync("sh", ["-c", `command -v ${program}`], { stdio: "ignore" }).status === 0;

/**
 * Installs what is missing where that is allowed (root on a machine with apt-get), otherwise says exactly what to do.
 *
 * @returns true when everything is there
 */
export function ensureDebianPackages() {
  const missing = NEEDED.filter((need) => !has(need.program));
  if (missing.length === 0) {
    console.log(`found ${NEEDED.map((need) => need.program).join(", ")}`);
    return true;
  }
  const names = missing.map((need) => need.package);
  const mayInstall = process.getuid?.() === 0 && has("apt-get");
  if (!mayInstall) {
    for (const need of missing) console.error(`${need.program} is missing; it is needed for ${need.for}.`);
    console.error(
      `Install it and run the gate again. On Debian:\n  sudo apt-get install --no-install-recommends ${names.join(" ")}`,
    );
    return false;
  }
  console.log(`installing ${names.join(", ")}`);
  const install = () => aptGet("install", "-y", "--no-install-recommends", ...names);
  // The package list may be old or absent: try, refresh, try again.
  if (!install() && !(aptGet("update") && install())) {
    console.error(`apt-get could not install ${names.join(" ")}; install it by hand and run the gate again.`);
    return false;
  }
  return missing.every((need) => has(need.program));
}

function aptGet(...args) {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  return spawnSync("apt-get", ["-q", ...args], { stdio: ["ignore", "inherit", "inherit"], env }).status === 0;
}
