// Validates binary glTF files with the Khronos validator; any error or warning fails.
//
//     check_gltf.mjs FILE...

import { readFileSync } from "node:fs";
import validator from "gltf-validator";

const files = process.argv.slice(2);
let failed = files.length === 0;
for (const file of files) {
  const report = await validator.validateBytes(new Uint8Array(readFileSync(file)), { maxIssues: 0 });
  const { numErrors, numWarnings, messages } = report.issues;
  const { drawCallCount, totalTriangleCount } = report.info;
  if (numErrors + numWarnings > 0 || totalTriangleCount === 0) {
    failed = true;
    console.log(`${file}: ${numErrors} errors, ${numWarnings} warnings, ${totalTriangleCount} triangles`);
    for (const message of messages) console.log(`  ${message.pointer ?? ""} ${message.code}: ${message.message}`);
  } else {
    console.log(`gltf: ${file} holds ${drawCallCount} parts, ${totalTriangleCount} triangles, no error, no warning`);
  }
}
process.exit(failed ? 1 : 0);
