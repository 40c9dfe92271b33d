import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { builtInCards } from './scripts/built-in-cards.mjs';
import { compress } from './scripts/compress.mjs';
import { lateShapes } from './scripts/late-shapes.mjs';
import { lateWords } from './scripts/late-words.mjs';
import { engineChecked, leaveOut } from './scripts/leave-out.mjs';
import { licences, workerLicences } from './scripts/licences.mjs';
import { manifest } from './scripts/manifest.mjs';
import { offline } from './scripts/offline.mjs';

export default defineConfig({
  plugins: [
    react(),
    engineChecked(),
    leaveOut(),
    lateShapes(),
    lateWords(),
    builtInCards(),
    licences(),
    manifest(),
    offline(),
    compress(),
  ],
  resolve: {
    conditions: ['kerfbook-late', 'kerfbook-source', 'module', 'browser', 'development|production'],
  },
  // The templates lie beside the apps, at the root of the repository.
  server: { fs: { allow: ['../..'] } },
  // A worker of several files: the solver of integer programs comes when it is needed.
  worker: {
    format: 'es',
    plugins: () => [workerLicences()],
    rolldownOptions: { output: { entryFileNames: 'assets/[name]-[hash].js' } },
  },
  build: {
    target: 'es2023',
    chunkSizeWarningLimit: 1200,
    // An inlined font would need a looser policy and could not be kept by the browser.
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        // What the first sheet needs comes in two files, fetched side by side: more would compress
        // worse. What comes later stays in files of its own.
        codeSplitting: {
          groups: [
            { name: 'engine', tags: ['$initial'], test: /[\\/]packages[\\/]/, priority: 1 },
            { name: 'grid', tags: ['$initial'] },
          ],
        },
      },
    },
  },
});
