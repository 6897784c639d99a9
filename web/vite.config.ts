import { defineConfig } from "vite";

// No asset is inlined, so that everything comes from the page's own server.
export default defineConfig({
  build: { target: "es2022", assetsInlineLimit: 0, chunkSizeWarningLimit: 700 },
  server: { proxy: { "/api": "http://127.0.0.1:4100" } },
});
