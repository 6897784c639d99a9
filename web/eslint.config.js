// What the linter holds the page to: recommended rules with types, and the rules of hooks.

import js from "@eslint/js";
import hooks from "eslint-plugin-react-hooks";
import { defineConfig, globalIgnores } from "eslint/config";
import globals from "globals";
import tseslint from "typescript-eslint";

export default defineConfig(
  globalIgnores(["dist"]),
  js.configs.recommended,
  { files: ["*.mjs"], languageOptions: { globals: globals.node } },
  { files: ["public/sw.js"], languageOptions: { globals: globals.serviceworker } },
  {
    files: ["src/**/*.{ts,tsx}"],
    extends: [tseslint.configs.recommendedTypeChecked, hooks.configs["recommended-latest"]],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: { "react-hooks/exhaustive-deps": "error" },
  },
);
