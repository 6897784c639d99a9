import { defineConfig } from "vite";

// Everything comes from the server that the page itself came from.
export default defineConfig({
  build: { target: "es2022", assetsInlineLimit: 0, chunkSizeWarningLimit: 700 },
  server: { proxy: { "/api": "http://127.0.0.1:4100" } },
});
