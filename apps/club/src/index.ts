export { type Out, runClub } from './main.ts';
export { readSettings, type Settings, WrongSetting } from './running/settings.ts';
export { openClub, type Running, startClub } from './running/start.ts';
