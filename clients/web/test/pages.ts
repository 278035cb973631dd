// Every page, by the name of its picture, and the ways it is looked at.

export interface Looked {
  name: string;
  /** The address after #; IDs in braces are found in the pages: {tank}, {bed}, {fish}, {trial}. */
  route: string;
  /** Printed too. */
  prints?: boolean;
  /** What takes a while to be there. */
  waits?: string;
  /** What is pressed before looking. */
  press?: string[];
  /** Read as who looks around in the invented cooperative: it has others to stand beside. */
  among?: boolean;
  /** Shown in its whole length as well. */
  whole?: boolean;
}

export const pages: readonly Looked[] = [
  { name: 'stream', route: 'stream', whole: true },
  { name: 'contents', route: 'contents' },
  { name: 'where', route: 'note' },
  { name: 'what', route: 'note/{tank}' },
  { name: 'reading', route: 'note/{tank}/reading/4', press: ['.key:nth-of-type(1)', '.key:nth-of-type(2)'] },
  { name: 'feeding', route: 'note/{tank}/feeding' },
  { name: 'death', route: 'note/{tank}/death' },
  { name: 'pick', route: 'note/{bed}/bedHarvest' },
  { name: 'photo', route: 'note/{bed}/photo' },
  { name: 'scan', route: 'scan' },
  { name: 'why', route: 'why', whole: true },
  { name: 'why-ammonia', route: 'why/ammonia', whole: true },
  { name: 'history', route: 'why/reading/3/{tank}' },
  { name: 'nitrogen', route: 'budget', whole: true },
  { name: 'ahead', route: 'ahead', waits: '[id$=-oxygen]', whole: true, prints: true },
  { name: 'fish', route: 'fish/{fish}' },
  { name: 'larder', route: 'larder', whole: true },
  { name: 'diary', route: 'diary' },
  { name: 'place', route: 'place/{bed}' },
  { name: 'build', route: 'build' },
  { name: 'build-bed', route: 'build/bed' },
  { name: 'alone', route: 'together' },
  { name: 'trial', route: 'trial/{trial}', whole: true },
  { name: 'together', route: 'together', among: true, waits: '.knot', whole: true },
  { name: 'join', route: 'join' },
  { name: 'papers', route: 'papers', prints: true },
  { name: 'loop', route: 'loop', prints: true },
  { name: 'tags', route: 'tags', prints: true },
  { name: 'phone', route: 'phone' },
  { name: 'left', route: 'left' },
];

export interface View {
  name: string;
  width: number;
  height: number;
  language?: 'en' | 'es';
  units?: 1 | 2;
  light?: 'day' | 'night';
  /** Percent of the usual size of letters. */
  letters?: number;
  print?: boolean;
  /** By axe, and by what a thumb can press. */
  judged?: boolean;
}

export const views: readonly View[] = [
  { name: 'phone', width: 390, height: 844, judged: true },
  { name: 'small', width: 320, height: 640 },
  { name: 'tablet', width: 820, height: 1180 },
  { name: 'night', width: 390, height: 844, light: 'night', judged: true },
  { name: 'spanish', width: 390, height: 844, language: 'es', units: 1 },
  { name: 'small-spanish', width: 320, height: 640, language: 'es', units: 1, judged: true },
  { name: 'large-spanish', width: 320, height: 640, language: 'es', units: 1, letters: 200, judged: true },
  { name: 'large', width: 320, height: 640, letters: 200, judged: true },
  { name: 'print', width: 794, height: 1123, print: true },
];
