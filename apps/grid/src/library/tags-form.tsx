import type { Done } from '@kerfbook/keeping';
import { tagsOf } from '@kerfbook/keeping/shelf';
import { NameForm } from './name-form.tsx';

interface TagsFormProps {
  readonly tags: readonly string[];
  readonly onTags: (tags: readonly string[]) => Promise<Done>;
  readonly onCancel: () => void;
}

/** Asks for the words a workbook is to be found by. */
export function TagsForm({ tags, onTags, onCancel }: TagsFormProps) {
  return (
    <NameForm
      label="Tags, a comma between them (12 at the most)"
      start={tags.join(', ')}
      does="Save tags"
      onName={(typed) => onTags(tagsOf(typed))}
      onCancel={onCancel}
    />
  );
}
