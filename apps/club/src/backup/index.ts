export { exportAll } from './export.ts';
export { BACKUP_VERSION, BackupRefused, KEPT, LEFT_OUT } from './format.ts';
export { importAll } from './import.ts';
