/** Required before a program: tells its processor time (s) and peak memory (kB) at the end of standard error. */
process.on("exit", () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  process.stderr.write(`\nused ${(userCPUTime + systemCPUTime) / 1e6} ${maxRSS}`);
});
