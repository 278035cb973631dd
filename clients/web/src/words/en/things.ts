// English names of what is noted and where.
import { BedKind } from '../../gen/freshet/v1/bed_pb';
import { DeathCause } from '../../gen/freshet/v1/death_pb';
import { Use } from '../../gen/freshet/v1/disposition_pb';
import { EquipmentKind } from '../../gen/freshet/v1/equipment_pb';
import { IncidentKind } from '../../gen/freshet/v1/incident_pb';
import { PlantingMethod } from '../../gen/freshet/v1/planting_pb';
import { PullingReason } from '../../gen/freshet/v1/pulling_pb';
import { Basis, Method, Quantity, Unit } from '../../gen/freshet/v1/reading_pb';
import { Substance } from '../../gen/freshet/v1/substance_pb';
import { Growing } from '../../gen/freshet/v1/system_pb';
import { UpkeepKind } from '../../gen/freshet/v1/upkeep_pb';
import { VesselKind } from '../../gen/freshet/v1/vessel_pb';
import { WaterSource } from '../../gen/freshet/v1/water_in_pb';

export const things = {
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
};
