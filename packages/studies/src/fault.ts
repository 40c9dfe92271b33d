/** A question that cannot be asked of a workbook; its message is a sentence for a person. */
export class StudyFault extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'StudyFault';
  }
}
