import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { leaveOut } from './scripts/leave-out.mjs';
import { offline } from './scripts/offline.mjs';

export default defineConfig({
  plugins: [react(), leaveOut(), offline()],
  resolve: { conditions: ['kerfbook-source', 'module', 'browser', 'development|production'] },
  // The templates lie beside the apps, at the root of the repository.
  server: { fs: { allow: ['../..'] } },
  build: {
    target: 'es2023',
    chunkSizeWarningLimit: 1200,
    // An inlined font would need a looser policy and could not be kept by the browser.
    assetsInlineLimit: 0,
  },
});
