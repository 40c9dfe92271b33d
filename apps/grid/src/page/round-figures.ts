export { roundFigures } from '@kerfbook/workbook';
