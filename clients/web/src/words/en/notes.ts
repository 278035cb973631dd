// English for the note pad.
import type { Say } from '../say';

export const notes = (say: Say) => ({
  shell: {
    contents: 'Contents',
    note: 'Note',
    close: 'Close',
    back: 'Back',
    waiting: (n: number) => say.count(n, { one: '# entry only on this phone', other: '# entries only on this phone' }),
    allSent: 'All entries are with the cooperative',
    waitingShort: (n: number) => say.count(n, { one: '# only here', other: '# only here' }),
    undo: 'Undo',
    noted: (what: string) => `Noted: ${what}`,
    opening: 'Opening the notebook',
    notFetched: 'This page is not on the phone yet, and it could not be fetched now. All other pages work.',
    again: 'Try again',
    loop: 'The loop',
    skip: 'Skip to the page',
  },

  kind: {
    reading: 'Test the water', feeding: 'Feed', stocking: 'Fish put in', weighing: 'Weigh', count: 'Count all', death: 'Found dead', move: 'Fish moved', fishHarvest: 'Fish taken out',
    sowing: 'Sow', transplanting: 'Set out', bedHarvest: 'Pick', pulling: 'Pull', dosing: 'Put into the water', treatment: 'Put on plants', waterIn: 'Water added', waterOut: 'Water let go',
    solidsOut: 'Sludge taken out', disposition: 'What became of it', upkeep: 'Upkeep', incident: 'Something went wrong', labour: 'Time spent', energy: 'Electricity', expense: 'Money', note: 'A note', photo: 'A photo',
  },
  field: {
    massG: 'weight', leftG: 'left over', count: 'how many', sampleCount: 'how many weighed', piecesCount: 'pieces or jars', areaM2: 'area', seedsCount: 'seeds', plantsCount: 'plants', volumeL: 'how much',
    volumeMl: 'how much', minutes: 'how long', energyKwh: 'energy', amountMinor: 'amount',
  },
  choice: { cause: 'Of what, if known', pulledFor: 'Why', substance: 'What it was', use: 'What became of it', upkeep: 'What was done', incident: 'What went wrong', waterSource: 'From where, if known' },
  fieldUnit: { volumeMl: 'mL', minutes: 'min', energyKwh: 'kWh' },
  textField: {
    dosing: 'what else it was', treatment: 'against what', solidsOut: 'where it went', disposition: 'what was had for it', upkeep: 'in words', incident: 'in words', labour: 'on what', expense: 'for what', note: 'the note', photo: 'words under it',
  },

  note: {
    lacks: { which: 'Which one?', into: 'Into which?', pick: 'Pick one of the words', photo: 'Take a photo first', words: 'Write a word', number: (what: string) => `${say.cap(what)}?` }, lately: 'The last times', 
    where: 'Where?', wholeSite: 'The whole site', others: 'Everything else', which: 'Which one', into: 'into', words: 'in words', unit: 'unit',
    keys: 'Keys', erase: 'Erase', below: 'Below the kit’s scale', above: 'Above the kit’s scale', point: 'Decimal mark', minus: 'Minus', tests: 'Tests', skip: 'Skip', next: 'Next line', itIsSo: 'It is so, note it',
    last: (value: string, ago: string) => `Last ${value}, ${ago}.`,
    first: 'Never read here before.',
    usualHere: 'The broad line is what is usual here.',
    usualAnywhere: 'The broad line is what a working loop shows.',
    strange: (value: string, low: string, high: string) => `${value} is far from what is usual here, ${low} to ${high}. Is it so?`,
    impossible: (low: string, high: string, unit: string) => `No water gets there: it lies between ${low} and ${high} ${unit}. Look at the digits and the unit.`,
    wait: (minutes: number) => `Wait ${minutes} minutes`, stop: 'Stop', ready: 'The colour is ready: read it now.',
    now: 'Now', hourAgo: 'An hour ago', yesterday: 'Yesterday', moment: 'Day and time', farOff: 'That is more than a month ago, or still to come. It is kept as you say.',
    noPlanting: 'Nothing stands here. Sow something first.', noFish: 'No fish are written down for this loop yet.',
    photoTake: 'Take a photo', photoAgain: 'Take another', photoTaken: 'The photo just taken', photoFailed: 'This file is not a picture that can be read here. Nothing was kept; take another.',
    photoStays: 'The picture goes to the cooperative after all entries. Where it was taken is not kept in it.',
  },
});
