import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["{core,persistence,server,drawing,words,web,print,cli,data,evidence,perf}/**/*.test.{ts,tsx}"],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Two cores: one worker less than the default keeps the scheduler's timing tests honest.
    maxWorkers: 2,
    // Files share nothing but pure modules, and none changes the environment: one process reads and compiles each module
    // once. A process for each file takes twice the processor time.
    isolate: false,
  },
});
