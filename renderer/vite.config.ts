import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  plugins: [react()],
  base: './',
  worker: { format: 'es' },
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    target: 'es2022',
    // The page's policy lets fonts and pictures come from files only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
