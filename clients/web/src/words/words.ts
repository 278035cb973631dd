// The catalogues. A language is a file that gives every word en.ts gives; the
// compiler refuses one that lacks a key, and the tests one that lacks a name.
import { en } from './en';
import type { Say } from './say';

export type Words = ReturnType<typeof en>;

export type Language = 'en' | 'es';

/** Each language by the name its speakers give it. */
export const languages: Record<Language, string> = { en: 'English', es: 'Español' };

/** Loads a language's words. */
export async function wordsFor(language: Language): Promise<(say: Say) => Words> {
  return language === 'es' ? (await import('./es')).es : en;
}
