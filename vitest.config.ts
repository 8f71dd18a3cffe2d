import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "test/**/*.test.ts", "reference/**/*.test.ts"],
    // Generous: nothing here measures time, and a shared machine may be slow.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    pool: "forks",
    maxWorkers: Math.max(2, availableParallelism()),
  },
});
