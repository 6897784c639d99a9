// What the linter holds the page to: recommended rules with types, and the rules of hooks.

import js from "@eslint/js";
import hooks from "eslint-plugin-react-hooks";
import { defineConfig, globalIgnores } from "eslint/config";
import globals from "globals";
import tseslint from "typescript-eslint";

const FROM_WORDS = "What the page shows comes from src/words.";
const SHOWN = "JSXAttribute[name.name=/^(aria-label|aria-valuetext|title|placeholder|alt|label)$/]";
const SHOWN_TEXTS = ["JSXText[value=/[A-Za-z]/]"].concat(
  [SHOWN, "JSXElement > JSXExpressionContainer", "JSXFragment > JSXExpressionContainer"].flatMap((place) => [
    `${place} > Literal[value=/[A-Za-z]/]`,
    `${place} > :matches(ConditionalExpression, LogicalExpression) > Literal[value=/[A-Za-z]/]`,
    `${place} > TemplateLiteral > TemplateElement[value.raw=/[A-Za-z]/]`,
    `${place} > * > TemplateLiteral > TemplateElement[value.raw=/[A-Za-z]/]`,
  ]),
);

export default defineConfig(
  globalIgnores(["dist"]),
  js.configs.recommended,
  { files: ["*.mjs"], languageOptions: { globals: globals.node } },
  { files: ["public/sw.js"], languageOptions: { globals: globals.serviceworker } },
  {
    files: ["src/**/*.{ts,tsx}"],
    extends: [tseslint.configs.recommendedTypeChecked, hooks.configs["recommended-latest"]],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      "react-hooks/exhaustive-deps": "error",
      "no-restricted-syntax": ["error", ...SHOWN_TEXTS.map((selector) => ({ selector, message: FROM_WORDS }))],
    },
  },
);
