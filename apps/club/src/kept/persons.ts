import type { Person } from '@kerfbook/protocol';
import type { Club } from '../club.ts';

/** Members as others see them, by their ids; each is read once. */
export async function personsOf(
  { id: club, database }: Club,
  ids: Iterable<string | null>,
): Promise<(id: string) => Person> {
  const wanted = [...new Set([...ids].filter((id) => id !== null))];
  const rows =
    wanted.length === 0
      ? []
      : await database.read
          .selectFrom('member')
          .select(['id', 'name', 'state'])
          .where('club', '=', club)
          .where('id', 'in', wanted)
          .execute();
  const persons = new Map<string, Person>(
    rows.map(({ id, name, state }) => [
      id,
      { id, name, ...(state === 'in' ? {} : { gone: true }) },
    ]),
  );
  return (id) => persons.get(id) ?? { id, name: 'A former member', gone: true };
}
