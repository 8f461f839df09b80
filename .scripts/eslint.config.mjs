import tseslint from "typescript-eslint";

const root = new URL("..", import.meta.url).pathname;

export default tseslint.config(
  { ignores: ["dist/**", "node_modules/**", "out/**"] },
  ...tseslint.configs.recommendedTypeChecked.map((c) => ({ ...c, files: ["**/*.ts"] })),
  {
    files: ["**/*.ts"],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: root } },
    rules: {
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }],
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/switch-exhaustiveness-check": ["error", { considerDefaultExhaustiveForUnions: true }],
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/restrict-template-expressions": ["error", { allowNumber: true }],
      eqeqeq: "error",
      "no-console": "error",
    },
  },
  // The preview's page runs in a browser, so it has types of its own.
  { files: ["client/preview/page/*.ts"], languageOptions: { parserOptions: { projectService: false, project: "client/preview/tsconfig.json", tsconfigRootDir: root } } },
  { files: ["server/cli/**/*.ts", "tests/**/*.ts"], rules: { "no-console": "off" } },
);
