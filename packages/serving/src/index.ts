export { CODINGS, fileFor, type Served, servedFile } from './files.ts';
export { HEADERS, policyFor } from './policy.ts';
