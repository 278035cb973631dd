// English. What stands here is what people read; the keys are what code says.
// Other catalogues give every key that this one gives.
import { BedKind } from '../gen/freshet/v1/bed_pb';
import { DeathCause } from '../gen/freshet/v1/death_pb';
import { Use } from '../gen/freshet/v1/disposition_pb';
import { EquipmentKind } from '../gen/freshet/v1/equipment_pb';
import { IncidentKind } from '../gen/freshet/v1/incident_pb';
import { PlantingMethod } from '../gen/freshet/v1/planting_pb';
import { PullingReason } from '../gen/freshet/v1/pulling_pb';
import { Basis, Method, Quantity, Unit } from '../gen/freshet/v1/reading_pb';
import { Substance } from '../gen/freshet/v1/substance_pb';
import { Growing } from '../gen/freshet/v1/system_pb';
import { UpkeepKind } from '../gen/freshet/v1/upkeep_pb';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { WaterSource } from '../gen/freshet/v1/water_in_pb';
import type { Judged } from '../reckon/water';
import type { Say } from './say';

export const en = (say: Say) => ({
  app: 'Freshet',

  vessel: {
    [VesselKind.UNSPECIFIED]: 'vessel', [VesselKind.FISH_TANK]: 'fish tank', [VesselKind.SETTLER]: 'settler', [VesselKind.MEDIA_FILTER]: 'media filter',
    [VesselKind.PUMP_TANK]: 'pump tank', [VesselKind.BED]: 'beds', [VesselKind.RETURN_TANK]: 'return tank',
  },
  vesselDoes: {
    [VesselKind.UNSPECIFIED]: '', [VesselKind.FISH_TANK]: 'Fish live in it.', [VesselKind.SETTLER]: 'Solids sink here.',
    [VesselKind.MEDIA_FILTER]: 'Bacteria turn ammonia to nitrate here.', [VesselKind.PUMP_TANK]: 'The pump stands in it.', [VesselKind.BED]: 'Plants stand in it.',
    [VesselKind.RETURN_TANK]: 'Water gathers here on its way back.',
  },
  bedKind: {
    [BedKind.UNSPECIFIED]: 'bed', [BedKind.MEDIA]: 'media bed', [BedKind.RAFT]: 'raft', [BedKind.CHANNEL]: 'channel', [BedKind.SOIL]: 'soil bed', [BedKind.POT]: 'pot', [BedKind.TRAY]: 'tray',
  },
  growing: { [Growing.UNSPECIFIED]: '', [Growing.MEDIA]: 'gravel or clay', [Growing.RAFT]: 'rafts', [Growing.CHANNEL]: 'channels', [Growing.MIXED]: 'several ways' },
  equipmentKind: {
    [EquipmentKind.UNSPECIFIED]: 'equipment', [EquipmentKind.PUMP]: 'pump', [EquipmentKind.AERATOR]: 'air pump', [EquipmentKind.HEATER]: 'heater',
    [EquipmentKind.LIGHT]: 'lamp', [EquipmentKind.PROBE]: 'probe',
  },
  quantity: {
    [Quantity.UNSPECIFIED]: 'reading', [Quantity.WATER_TEMPERATURE]: 'water', [Quantity.AIR_TEMPERATURE]: 'air', [Quantity.PH]: 'pH', [Quantity.TOTAL_AMMONIA]: 'ammonia',
    [Quantity.NITRITE]: 'nitrite', [Quantity.NITRATE]: 'nitrate', [Quantity.DISSOLVED_OXYGEN]: 'oxygen', [Quantity.OXYGEN_SATURATION]: 'oxygen, of full', [Quantity.ALKALINITY]: 'alkalinity',
    [Quantity.HARDNESS]: 'hardness', [Quantity.CONDUCTIVITY]: 'conductivity', [Quantity.SALINITY]: 'salinity', [Quantity.CARBON_DIOXIDE]: 'carbon dioxide', [Quantity.IRON]: 'iron',
    [Quantity.PHOSPHATE]: 'phosphate', [Quantity.POTASSIUM]: 'potassium', [Quantity.CALCIUM]: 'calcium', [Quantity.CHLORINE]: 'chlorine', [Quantity.CHLORIDE]: 'chloride', [Quantity.FLOW]: 'flow',
    [Quantity.LEVEL]: 'level', [Quantity.LIGHT]: 'light', [Quantity.HUMIDITY]: 'humidity', [Quantity.PRESSURE]: 'air pressure', [Quantity.APPETITE]: 'appetite', [Quantity.CLARITY]: 'clarity',
    [Quantity.MAGNESIUM]: 'magnesium',
  },
  unit: {
    [Unit.UNSPECIFIED]: '', [Unit.NONE]: '', [Unit.CELSIUS]: '°C', [Unit.FAHRENHEIT]: '°F', [Unit.MG_PER_L]: 'mg/L', [Unit.UG_PER_L]: 'µg/L', [Unit.MMOL_PER_L]: 'mmol/L',
    [Unit.MEQ_PER_L]: 'meq/L', [Unit.DEGREES_KH]: 'dKH', [Unit.PERCENT]: '%', [Unit.US_PER_CM]: 'µS/cm', [Unit.MS_PER_CM]: 'mS/cm', [Unit.G_PER_KG]: 'g/kg', [Unit.SPECIFIC_GRAVITY]: 'SG',
    [Unit.L_PER_H]: 'L/h', [Unit.L_PER_MIN]: 'L/min', [Unit.GAL_PER_MIN]: 'gal/min', [Unit.GAL_PER_H]: 'gal/h', [Unit.M]: 'm', [Unit.CM]: 'cm', [Unit.IN]: 'in', [Unit.UMOL_PER_M2_S]: 'µmol/m²s',
    [Unit.LUX]: 'lux', [Unit.HPA]: 'hPa', [Unit.KPA]: 'kPa', [Unit.MMHG]: 'mmHg', [Unit.INHG]: 'inHg', [Unit.WORD]: '', [Unit.KELVIN]: 'K', [Unit.PPM_CACO3]: 'ppm CaCO₃',
  },
  basis: {
    [Basis.UNSPECIFIED]: '', [Basis.AS_N]: 'as N', [Basis.AS_NH3]: 'as NH₃', [Basis.AS_NH4]: 'as NH₄', [Basis.AS_NO2]: 'as NO₂', [Basis.AS_NO3]: 'as NO₃', [Basis.AS_CACO3]: 'as CaCO₃',
    [Basis.AS_P]: 'as P', [Basis.AS_PO4]: 'as PO₄',
  },
  method: {
    [Method.UNSPECIFIED]: '', [Method.STRIP]: 'strip', [Method.DROPS]: 'drops', [Method.METER]: 'hand meter', [Method.PROBE]: 'probe', [Method.EYE]: 'by eye', [Method.LABORATORY]: 'laboratory',
  },
  words: {
    [Quantity.APPETITE]: ['refuse', 'slow', 'usual', 'keen', 'boiling'],
    [Quantity.CLARITY]: ['opaque', 'murky', 'cloudy', 'clear', 'bright'],
  },
  cause: {
    [DeathCause.UNSPECIFIED]: 'not known', [DeathCause.OXYGEN]: 'too little oxygen', [DeathCause.WATER]: 'bad water', [DeathCause.TEMPERATURE]: 'too cold or warm',
    [DeathCause.DISEASE]: 'disease', [DeathCause.HANDLING]: 'handling', [DeathCause.PREDATOR]: 'a predator', [DeathCause.JUMPED]: 'jumped out',
  },
  pulledFor: {
    [PullingReason.UNSPECIFIED]: 'not said', [PullingReason.FINISHED]: 'it had borne', [PullingReason.PESTS]: 'pests', [PullingReason.DISEASE]: 'disease', [PullingReason.WEATHER]: 'cold or heat',
    [PullingReason.NUTRIENTS]: 'hunger', [PullingReason.PLACE_NEEDED]: 'its place was needed',
  },
  substance: {
    [Substance.UNSPECIFIED]: 'something', [Substance.OTHER]: 'something else', [Substance.SALT]: 'salt', [Substance.POTASSIUM_HYDROXIDE]: 'potassium hydroxide',
    [Substance.POTASSIUM_CARBONATE]: 'potassium carbonate', [Substance.POTASSIUM_BICARBONATE]: 'potassium bicarbonate', [Substance.CALCIUM_HYDROXIDE]: 'calcium hydroxide',
    [Substance.CALCIUM_CARBONATE]: 'calcium carbonate', [Substance.SODIUM_BICARBONATE]: 'sodium bicarbonate', [Substance.IRON_CHELATE]: 'iron chelate', [Substance.ACID]: 'an acid',
    [Substance.AMMONIA]: 'ammonia', [Substance.DECHLORINATOR]: 'dechlorinator', [Substance.CARBON_SOURCE]: 'molasses', [Substance.POTASSIUM_SOAP]: 'potassium soap',
    [Substance.NEEM_OIL]: 'neem oil', [Substance.BACILLUS_THURINGIENSIS]: 'Bacillus thuringiensis',
  },
  use: {
    [Use.UNSPECIFIED]: '', [Use.EATEN]: 'eaten', [Use.KEPT]: 'kept fresh', [Use.CANNED]: 'canned', [Use.DRIED]: 'dried', [Use.FROZEN]: 'frozen', [Use.FERMENTED]: 'fermented',
    [Use.BARTERED]: 'bartered', [Use.SOLD]: 'sold', [Use.GIVEN]: 'given away', [Use.COMPOSTED]: 'composted', [Use.FED_BACK]: 'fed back',
  },
  upkeep: {
    [UpkeepKind.UNSPECIFIED]: 'upkeep', [UpkeepKind.OTHER]: 'something else', [UpkeepKind.FILTER_CLEANED]: 'cleaned', [UpkeepKind.PROBE_CALIBRATED]: 'probe calibrated',
    [UpkeepKind.PUMP_SERVICED]: 'pump serviced', [UpkeepKind.CYCLE_CHANGED]: 'timer or siphon set', [UpkeepKind.POLLINATED]: 'pollinated by hand', [UpkeepKind.PRUNED]: 'pruned or trained',
    [UpkeepKind.COVER_CHANGED]: 'shade or vents changed',
  },
  incident: {
    [IncidentKind.UNSPECIFIED]: 'something went wrong', [IncidentKind.OTHER]: 'something else', [IncidentKind.POWER_CUT]: 'power cut', [IncidentKind.PUMP_STOPPED]: 'pump stopped',
    [IncidentKind.LEAK]: 'leak', [IncidentKind.HEATER_FAILED]: 'heater failed', [IncidentKind.FISH_DISTRESS]: 'fish in distress', [IncidentKind.PESTS]: 'pests', [IncidentKind.WEATHER]: 'storm, frost or heat',
  },
  waterSource: {
    [WaterSource.UNSPECIFIED]: 'the usual', [WaterSource.TAP]: 'tap', [WaterSource.WELL]: 'well or spring', [WaterSource.RAIN]: 'rain', [WaterSource.SURFACE]: 'river or pond',
  },
  planting: {
    [PlantingMethod.UNSPECIFIED]: 'sown in place', [PlantingMethod.DIRECT_SEED]: 'sown in place', [PlantingMethod.TRANSPLANT]: 'set out', [PlantingMethod.CUTTING]: 'cutting or runner',
    [PlantingMethod.BULB]: 'bulb, tuber or clove',
  },
  crop: {} as Record<string, string>,
  species: {} as Record<string, string>,

  shell: {
    contents: 'Contents',
    note: 'Note',
    close: 'Close',
    back: 'Back',
    waiting: (n: number) => say.count(n, { one: '# entry only on this phone', other: '# entries only on this phone' }),
    allSent: 'All entries are with the cooperative',
    undo: 'Undo',
    noted: (what: string) => `Noted: ${what}`,
    opening: 'Opening the notebook',
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
  fieldUnit: { volumeMl: 'mL', minutes: 'min', energyKwh: 'kWh' },
  textField: {
    dosing: 'what else it was', treatment: 'against what', solidsOut: 'where it went', disposition: 'what was had for it', upkeep: 'in words', incident: 'in words', labour: 'on what', expense: 'for what', note: 'the note', photo: 'words under it',
  },

  note: {
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
  },

  page: { stream: 'Stream', why: 'Why', papers: 'Papers', phone: 'This phone' },

  contents: {
    tasks: (n: number) => say.count(n, { one: '# thing to do on this walk', other: '# things to do on this walk' }),
    calm: 'nothing needs you',
    why: 'what the water says, and what the loop carries',
    papers: 'a day sheet, a calendar, a table',
    phone: 'language, units, light',
    sites: 'Sites',
  },

  phone: {
    nothingWaits: 'Nothing waits on this phone',
    oldest: (ago: string) => `The oldest was noted ${ago}.`,
    heard: (ago: string) => `Last heard from the cooperative ${ago}.`,
    never: 'This phone has not heard from a cooperative yet. What you note is kept here.',
    invented: 'This is the invented notebook, for looking around. Nothing in it is sent to anybody.',
    ownNotebook: 'Go to my own notebook',
    language: 'Language', units: 'Units', light: 'Light',
    system: { 0: '', 1: 'metric', 2: 'US customary' } as Record<number, string>,
    lights: { auto: 'by the hour', day: 'day', night: 'night round' },
  },

  first: {
    lead: 'A notebook for a loop of water with fish and plants. It works with no signal, and reckons what follows from what you write.',
    begin: 'Draw my loop',
    yours: 'Your loop',
    setting: 'Language and units',
    lookWords: 'Or leaf through an invented one first. It stays on this phone.',
    look: 'Look around',
    place: 'What do you call the place?',
    start: 'Where do the fish live?',
    next: 'What does the water meet next?',
    holds: (unit: string) => `Water it holds, ${unit}`,
    add: 'Draw it',
    closes: 'The water goes back: done',
  },

  why: {
    figure: { ammonia: 'Ammonia', oxygen: 'Oxygen', nitrite: 'Nitrite', temperature: 'Warmth', ph: 'pH', carbonDioxide: 'Carbon dioxide', nitrate: 'Nitrate' },
    restsOn: 'What it rests on',
    source: 'Who says so',
    setting: { ammoniaLimit: 'most wanted', oxygenLimit: 'least wanted', elevation: 'height, m', low: 'lowest wanted', high: 'highest wanted' },
    from: { loop: 'set for this loop', site: 'the site', species: '', published: '' },
    careful: 'Test again before acting on a number, change one thing at a time, and watch the animals.',
    week: 'Since a week ago',
    went: (before: string, after: string) => `It went from ${before} to ${after}.`,
    split: 'Each part is what that reading alone brought, over every order in which they could have changed (Shapley 1953). The parts sum to the change.',
    beforeIt: 'What happened before it',
    carries: 'What this loop carries',
    binds: (limit: string, feed: string, fish: string) => `${say.cap(limit)} is the tightest: ${feed} of feed a day, about ${fish} of fish.`,
    limit: { oxygen: 'oxygen', nitrification: 'the filter', carbonate: 'alkalinity', plants: 'plants', space: 'space' },
    carryCaution: 'Fish grow: stock for the day they are taken out, and for the pump’s worst hour.',
    days: (n: number) => say.count(n, { one: '# day', other: '# days' }),
    all: 'all',
    chart: (what: string, n: number) => `${what} over time, ${say.count(n, { one: '# reading', other: '# readings' })}. The arrow keys move it; the numbers are in the table below.`,
    numbers: 'The last numbers',
  },

  papers: {
    print: 'Print the day sheet', calendar: 'Calendar file of sowing and bearing', table: 'Records of a year as a table (CSV)', hour: 'hour',
    caution: 'Electricity near water: residual-current devices, and a licensed electrician. Labels and local law outrank every number here.',
  },

  stream: {
    title: 'Stream',
    walk: 'This walk',
    nothing: 'Nothing needs you on this walk.',
    more: (n: number) => say.count(n, { one: 'and # more', other: 'and # more' }),
    holds: (litres: number) => say.amount('volume', litres),
    bank: 'On the bank',
    wayBack: (name: string) => `The water goes back to ${name}.`,
    noteAt: (name: string) => `Note something at ${name}`,
    why: 'Why?',
    stroke: 'One stroke in the water stands for ten fish.',
    empty: 'Nothing stands in it.',
    since: (when: string) => `since ${when}`,
    fish: (name: string, n: number, grams: string) => (grams ? `${say.places(n, 0)} ${name}, about ${grams} each` : `${say.places(n, 0)} ${name}`),
    negative: (name: string) => `More ${name} left than ever came: a stocking or a count is missing.`,
    stands: (crop: string) => crop,
    sown: (crop: string, when: string) => `${crop}, sown ${when}`,
    bears: (from: string, until: string) => `bears ${from} to ${until}`,
    bearsNow: (until: string) => `bears now, until about ${until}`,
    bearsFrom: (early: string, late: string) => `bears from ${early} – ${late}`,
    past: (since: string) => `past its bearing since ${since}`,
    old: (n: number) => say.count(n, { one: '# older reading', other: '# older readings' }),
  },

  task: {
    feed: (name: string, amount: string) => `${name}: ${amount} of feed today.`,
    feedCut: (name: string, amount: string, full: string, why: string) => `${name}: only ${amount} today instead of ${full}, since ${why}.`,
    feedHeld: (name: string, amount: string, carries: string) => `${name}: no more than ${amount} today; the loop carries ${carries} in all.`,
    noFeed: (why: string) => `Do not feed today, since ${why}.`,
    cut: { ammonia: 'ammonia is not safe', ammoniaNear: 'ammonia is close to its limit', oxygen: 'oxygen is too low', nitrite: 'nitrite is too high' },
    gave: (amount: string) => `Gave ${amount}`,
    other: 'Other',
    appetite: 'How do they eat?',
    test: (what: string, ago: string) => `Test ${what}; last ${ago}.`,
    begin: 'Begin',
    again: 'Test again',
    bears: (crop: string) => `${crop} bears.`,
    pick: 'Pick',
    past: (crop: string) => `${crop} is past its bearing.`,
    pulled: 'Pulled',
    sow: (crop: string, area: string) => `Sow ${area} of ${crop}.`,
    sown: 'Sown',
    weigh: (name: string, ago: string) => `Weigh about twenty of ${name}; last ${ago}.`,
    weighNever: (name: string) => `Weigh about twenty of ${name}: they never were.`,
    weighed: 'Weigh',
    lasts: (what: string, since: string) => `${what} since ${since}.`,
    over: 'It is over',
    stale: (what: string, ago: string) => `${what} was last read ${ago}.`,
    done: 'done',
  },

  water: {
    ammonia: (j: Judged) => {
      const now = `${say.number(j.value ?? NaN, 2)} mg/L of it is the poisonous kind, and ${say.number(j.facts.limit ?? NaN, 2)} is the limit.`;
      if (j.standing === 'act') return `Ammonia is not safe. ${now} It would be safe below ${say.number(j.facts.safeBelow ?? NaN, 2)} mg/L in all.`;
      const turns = j.facts.turnsAtPh === undefined ? '' : ` It would not be if pH passed ${say.places(j.facts.turnsAtPh, 1)}.`;
      return j.standing === 'watch' ? `Ammonia is close to its limit. ${now}${turns}` : `Ammonia is safe.${turns}`;
    },
    oxygen: (j: Judged) => {
      const is = `Oxygen is ${say.number(j.facts.measured ?? NaN, 2)} mg/L, ${say.percent((j.value ?? NaN) / 100)} of what this water can hold.`;
      const least = say.number(j.facts.limit ?? NaN, 2);
      if (j.standing === 'act') return `${is} The fish want at least ${least}: aerate now and do not feed.`;
      return j.standing === 'watch' ? `${is} That is close to the ${least} the fish want at least.` : is;
    },
    nitrite: (j: Judged) => {
      const is = `Nitrite is ${say.number(j.value ?? NaN, 2)} mg/L as N`;
      const chloride = j.facts.chlorideRatio === undefined ? '' : ` Chloride is ${say.number(j.facts.chlorideRatio, 2)} times as much.`;
      if (j.standing === 'act') return `${is}: too high. Do not feed, add clean water, and test again tomorrow.${chloride}`;
      return (j.standing === 'watch' ? `${is}, above the ${say.number(j.facts.high ?? NaN, 2)} wanted.` : `${is}: harmless.`) + chloride;
    },
    temperature: (j: Judged, species: string) => {
      const is = `The water is ${say.amount('temperature', j.value ?? NaN)}.`;
      if (j.standing === 'act') return `${is} That is near what kills ${species}.`;
      if (j.facts.low !== undefined) return `${is} ${species} does not feed below ${say.amount('temperature', j.facts.low)}: give nothing.`;
      if (j.facts.high !== undefined) return `${is} ${species} does not feed above ${say.amount('temperature', j.facts.high)}: give nothing.`;
      return is;
    },
    ph: (j: Judged) => {
      const is = `pH is ${say.places(j.value ?? NaN, 1)}.`;
      const { low = NaN, high = NaN } = j.facts;
      if (j.standing !== 'watch') return is;
      if ((j.value ?? NaN) < low) return `${is} Below ${say.places(low, 1)} bacteria slow down: raise alkalinity little by little, and test ammonia first, since raising pH makes it poisonous.`;
      return `${is} Above ${say.places(high, 1)} plants take up iron poorly. Do not force it down; it falls as bacteria work.`;
    },
    carbonDioxide: (j: Judged) => `Carbon dioxide is about ${say.number(j.value ?? NaN, 2)} mg/L; ${j.standing === 'watch' ? 'aerate more, below 20 is a common target' : 'below 20 is a common target'}.`,
    nitrate: (j: Judged) => {
      const is = `Nitrate is ${say.number(j.value ?? NaN, 2)} mg/L as N`;
      if (j.standing !== 'watch') return `${is}.`;
      return (j.value ?? NaN) < (j.facts.low ?? NaN) ? `${is}: little for the plants.` : `${is}, more than is wanted: plant more, or feed less.`;
    },
    /** In one breath, for the list of a walk. */
    short: {
      ammonia: (j: Judged) => (j.standing === 'act' ? 'Ammonia is not safe.' : 'Ammonia is close to its limit.'),
      oxygen: (j: Judged) => (j.standing === 'act' ? 'Oxygen is too low: aerate now.' : 'Oxygen is close to its limit.'),
      nitrite: (j: Judged) => (j.standing === 'act' ? 'Nitrite is too high: add clean water.' : 'Nitrite is above what is wanted.'),
      temperature: (j: Judged) => (j.standing === 'act' ? 'The water is near what kills the fish.' : 'The water is outside what the fish feed in.'),
      ph: (j: Judged) => ((j.value ?? 7) > (j.facts.high ?? 7) ? 'pH is high.' : 'pH is low.'),
      carbonDioxide: (_: Judged) => 'Carbon dioxide is high: aerate more.',
      nitrate: (j: Judged) => ((j.value ?? 0) > (j.facts.high ?? 0) ? 'Nitrate is high: plant more, or feed less.' : 'Nitrate is low: little for the plants.'),
    },
    unknown: {
      ammonia: 'Whether ammonia is safe cannot be told.', oxygen: 'Oxygen is not measured here.', nitrite: 'Nitrite is not tested here.', temperature: 'Water temperature is not measured here.',
      ph: 'pH is not measured here.', carbonDioxide: 'Carbon dioxide cannot be told.', nitrate: 'Nitrate is not tested here.',
    },
    missing: (what: string) => `${what} was never read here.`,
    allWell: 'The water is well.',
  },
});
