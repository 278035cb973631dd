// English for what is written of the place, the diary, tags and the camera.
import { CohortPurpose } from '../../gen/freshet/v1/cohort_pb';

export const records = () => ({
  purpose: { [CohortPurpose.UNSPECIFIED]: 'to eat', [CohortPurpose.TABLE]: 'to eat', [CohortPurpose.SENTINEL]: 'to show trouble early', [CohortPurpose.BREEDING]: 'to breed' } as Record<number, string>,
  build: {
    kind: { site: 'The place', vessel: 'A vessel', bed: 'A bed', cohort: 'Fish', equipment: 'A pump or lamp', feed: 'A feed', crop: 'What the house eats' },
    field: {
      name: 'What it is called', kind: 'What it is', volumeL: 'Water it holds', after: 'The water comes to it from', flowLPerH: 'Water through it', mediaVolumeL: 'Gravel or carriers in it',
      mediaSpecificSurfaceM2PerM3: 'Surface of the gravel or carriers', areaM2: 'Area plants can stand on', vesselId: 'Where it stands', covered: 'Under cover', species: 'Which fish', purpose: 'What for',
      targetWeightG: 'Weight they are wanted at', powerW: 'Power', onBackup: 'Goes on when the mains fail', proteinPercent: 'Protein, as on the bag', crop: 'Crop', useKgPerWeek: 'Used in a week',
      elevationM: 'Height above the sea', lastFrost: 'Last frost of spring, month-day', firstFrost: 'First frost of autumn, month-day', householdPeople: 'People who eat from it',
      sourceAlkalinityMgPerL: 'Alkalinity of the water you add', sourceNitrateMgPerL: 'Nitrate of the water you add',
    },
    add: 'Add',
    words: 'How many fish live is never written here: it follows from what you note as put in, found dead and taken out.',
    write: 'Write it down', remove: 'Take it away', sure: 'What was noted about it stays, but it will stand nowhere. Take it away?', yes: 'Yes, take it away',
    gone: (name: string) => `${name} taken away`,
    between: (low: string, high: string) => `It lies between ${low} and ${high}.`, notANumber: 'That is not a number.', frost: 'Month and day, like 05-20.',
    protein: (percent: string) => `${percent} % protein`,
    week: (amount: string) => `${amount} a week`,
    noUse: 'Not said yet.',
  },
  diary: {
    photoElsewhere: 'The picture has not come yet: it is on the phone it was taken with, or there is no signal.', photoWhole: 'Show the picture whole', photoAgain: 'Look for it again',
    empty: 'Nothing was noted in these days.', before: 'The week before', takeBack: 'Take it back', taken: 'taken back', corrected: 'corrected', probe: 'Probes are left out here.', only: 'Only on this phone yet.',
    today: 'Today', yesterday: 'Yesterday',
  },
  place: {
    written: 'What is written here', noted: 'Noted here lately', stands: 'What stands here', stood: 'What stood here', gave: (amount: string, from: string, to: string) => `${amount}, ${from} to ${to}`,
    change: 'Change what is written of it', tag: 'Print its tag', unknown: 'This place is not in the notebook on this phone.', read: 'Read here', nothingRead: 'Nothing was read here yet.',
  },
  tags: {
    title: 'Tags for tanks and beds', lead: 'Print, cut, put under tape. Scanned with the camera, each opens its own place.', scan: 'Scan a tag', scanLead: 'Hold a tag, or an invitation’s code, before the camera.',
    refused: 'The camera was not allowed. Nothing is lost: pick the place from the list, or type the code.', none: 'This phone has no camera that can be used here. Pick the place from the list, or type the code.',
    foreign: 'That code is not one of ours.', picture: 'Read a picture instead', unread: 'No code could be read in that picture.', looking: 'Looking',
  },
  whatIf: {
    title: 'What if', lead: 'Move a number and see.', would: (value: string) => `It would be ${value}.`, over: (limit: string) => `That is above the limit of ${limit}.`, under: (limit: string) => `That is within the limit of ${limit}.`, least: (limit: string) => `The fish want at least ${limit}.`, reset: 'As it is', refuses: 'No formula reaches there.',
  },
});
