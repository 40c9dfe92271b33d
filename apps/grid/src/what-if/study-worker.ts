import { serveInWorker } from '@kerfbook/workbook/sweep';

// Works studies out beside the page.
serveInWorker();
