// Words of the cover: they are there before all others.
export const cover = {
  lead: 'A notebook for a loop of water with fish and plants. It works with no signal, and reckons what follows from what you write.',
  begin: 'Draw my loop',
  setting: 'Language and units',
  invited: 'I was given a code',
  lookWords: 'Or leaf through an invented one first. It stays on this phone.',
  look: 'Look around',
  notOpened: 'The notebook could not be fetched now. Try again where there is a signal.',
};
