import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/**
 * The component library brings its own texts in some thirty languages; the app speaks English. Without a language the
 * library falls back to en-US, as its documentation says of its own plugin for this.
 */
const onlyEnglish: Plugin = {
  name: "only-english",
  enforce: "pre",
  load: {
    filter: {
      id: /[\\/]react-(?:aria|stately|aria-components)[\\/]dist[\\/].*[\\/](?!en-US)[a-z]{2}-[A-Z]{2}\.m?js$/,
    },
    handler: () => "export default undefined;",
  },
};

/** The app: from web/ to dist/web, served by server/ and readable offline. */
export default defineConfig({
  root: "web",
  publicDir: "public",
  plugins: [
    onlyEnglish,
    react(),
    VitePWA({
      registerType: "autoUpdate",
      injectRegister: false,
      manifest: {
        name: "Tournant",
        short_name: "Tournant",
        description: "One plate, the same plate N times, on time, safe, at a known cost.",
        display: "standalone",
        background_color: "#F7F3EA",
        theme_color: "#F7F3EA",
        start_url: "/",
        icons: [{ src: "/icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
      workbox: {
        globPatterns: ["**/*.{html,js,css,ttf,svg,webmanifest,wasm}"],
        maximumFileSizeToCacheInBytes: 8_000_000,
        navigateFallback: "/index.html",
        navigateFallbackDenylist: [/^\/api\//],
        clientsClaim: true,
        skipWaiting: true,
      },
    }),
  ],
  build: { outDir: "../dist/web", emptyOutDir: true, target: "es2023", sourcemap: false },
  // A trace cites its rules by the names of their functions: the worker keeps them.
  worker: { format: "es", rolldownOptions: { output: { keepNames: true } } },
  server: { proxy: { "/api": process.env.TOURNANT_API ?? "http://127.0.0.1:4270" } },
});
