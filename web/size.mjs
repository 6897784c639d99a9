// Fails where everything that a browser loads, compressed, exceeds the limit.
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const LIMIT = 400_000;
let sum = 0;
for (const file of readdirSync("dist", { recursive: true, withFileTypes: true })) {
  if (file.isFile()) sum += gzipSync(readFileSync(`${file.parentPath}/${file.name}`)).length;
}
console.log(`page: ${Math.round(sum / 1000)} kB compressed`);
if (sum > LIMIT) {
  console.error(`That is more than ${LIMIT / 1000} kB.`);
  process.exit(1);
}
