import type { Language } from '../../content/languages.ts'
import type { First, Words } from '../../content/words.ts'

/** All words of a language, as the app fetches them. */
export const load = async (id: Language): Promise<{ first: First; later: Words }> => {
  const [{ first }, { later }] = await Promise.all([import(`../../content/${id}/first.ts`), import(`../../content/${id}/later.ts`)])
  return { first, later }
}
