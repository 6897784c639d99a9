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

const BY_ID = "What the server says is shown, never matched: use its ids, kinds and marks.";
const SAID = "/^(about|says|cure|source|title|reason|why)$/";
const MATCHED_TEXTS = [
  ...["callee.object.property.name", "callee.object.name"].map(
    (holder) => `CallExpression[callee.property.name=/^(includes|match|startsWith|endsWith|indexOf|search)$/][${holder}=${SAID}]`,
  ),
  ...["MemberExpression.arguments[property.name", "Identifier.arguments[name"].map(
    (given) => `CallExpression[callee.property.name=/^(test|exec)$/] > ${given}=${SAID}]`,
  ),
  `BinaryExpression[operator=/^[!=]==$/] > MemberExpression[property.name=/^(about|says|cure|source)$/]`,
];

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
      "no-restricted-syntax": [
        "error",
        ...SHOWN_TEXTS.map((selector) => ({ selector, message: FROM_WORDS })),
        ...MATCHED_TEXTS.map((selector) => ({ selector, message: BY_ID })),
      ],
    },
  },
);
