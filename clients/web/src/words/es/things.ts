// Spanish names of what is noted and where.
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
    [VesselKind.UNSPECIFIED]: 'recipiente', [VesselKind.FISH_TANK]: 'tanque de peces', [VesselKind.SETTLER]: 'decantador', [VesselKind.MEDIA_FILTER]: 'filtro de grava',
    [VesselKind.PUMP_TANK]: 'tanque de la bomba', [VesselKind.BED]: 'camas', [VesselKind.RETURN_TANK]: 'tanque de retorno',
  },
  vesselDoes: {
    [VesselKind.UNSPECIFIED]: '', [VesselKind.FISH_TANK]: 'Aquí viven los peces.', [VesselKind.SETTLER]: 'Aquí se hunden los sólidos.',
    [VesselKind.MEDIA_FILTER]: 'Aquí las bacterias vuelven nitrato el amoníaco.', [VesselKind.PUMP_TANK]: 'Aquí está la bomba.', [VesselKind.BED]: 'Aquí están las plantas.',
    [VesselKind.RETURN_TANK]: 'Aquí se junta el agua antes de volver.',
  },
  bedKind: {
    [BedKind.UNSPECIFIED]: 'cama', [BedKind.MEDIA]: 'cama de grava', [BedKind.RAFT]: 'balsa', [BedKind.CHANNEL]: 'canal', [BedKind.SOIL]: 'cama de tierra', [BedKind.POT]: 'maceta', [BedKind.TRAY]: 'bandeja',
  },
  growing: { [Growing.UNSPECIFIED]: '', [Growing.MEDIA]: 'grava o arcilla', [Growing.RAFT]: 'balsas', [Growing.CHANNEL]: 'canales', [Growing.MIXED]: 'de varias maneras' },
  equipmentKind: {
    [EquipmentKind.UNSPECIFIED]: 'equipo', [EquipmentKind.PUMP]: 'bomba', [EquipmentKind.AERATOR]: 'bomba de aire', [EquipmentKind.HEATER]: 'calentador',
    [EquipmentKind.LIGHT]: 'lámpara', [EquipmentKind.PROBE]: 'sonda',
  },
  quantity: {
    [Quantity.UNSPECIFIED]: 'lectura', [Quantity.WATER_TEMPERATURE]: 'agua', [Quantity.AIR_TEMPERATURE]: 'aire', [Quantity.PH]: 'pH', [Quantity.TOTAL_AMMONIA]: 'amoníaco',
    [Quantity.NITRITE]: 'nitrito', [Quantity.NITRATE]: 'nitrato', [Quantity.DISSOLVED_OXYGEN]: 'oxígeno', [Quantity.OXYGEN_SATURATION]: 'oxígeno, del total', [Quantity.ALKALINITY]: 'alcalinidad',
    [Quantity.HARDNESS]: 'dureza', [Quantity.CONDUCTIVITY]: 'conductividad', [Quantity.SALINITY]: 'salinidad', [Quantity.CARBON_DIOXIDE]: 'dióxido de carbono', [Quantity.IRON]: 'hierro',
    [Quantity.PHOSPHATE]: 'fosfato', [Quantity.POTASSIUM]: 'potasio', [Quantity.CALCIUM]: 'calcio', [Quantity.CHLORINE]: 'cloro', [Quantity.CHLORIDE]: 'cloruro', [Quantity.FLOW]: 'caudal',
    [Quantity.LEVEL]: 'nivel', [Quantity.LIGHT]: 'luz', [Quantity.HUMIDITY]: 'humedad', [Quantity.PRESSURE]: 'presión del aire', [Quantity.APPETITE]: 'apetito', [Quantity.CLARITY]: 'claridad',
    [Quantity.MAGNESIUM]: 'magnesio',
  },
  unit: {
    [Unit.UNSPECIFIED]: '', [Unit.NONE]: '', [Unit.CELSIUS]: '°C', [Unit.FAHRENHEIT]: '°F', [Unit.MG_PER_L]: 'mg/L', [Unit.UG_PER_L]: 'µg/L', [Unit.MMOL_PER_L]: 'mmol/L',
    [Unit.MEQ_PER_L]: 'meq/L', [Unit.DEGREES_KH]: 'dKH', [Unit.PERCENT]: '%', [Unit.US_PER_CM]: 'µS/cm', [Unit.MS_PER_CM]: 'mS/cm', [Unit.G_PER_KG]: 'g/kg', [Unit.SPECIFIC_GRAVITY]: 'DR',
    [Unit.L_PER_H]: 'L/h', [Unit.L_PER_MIN]: 'L/min', [Unit.GAL_PER_MIN]: 'gal/min', [Unit.GAL_PER_H]: 'gal/h', [Unit.M]: 'm', [Unit.CM]: 'cm', [Unit.IN]: 'in', [Unit.UMOL_PER_M2_S]: 'µmol/m²s',
    [Unit.LUX]: 'lux', [Unit.HPA]: 'hPa', [Unit.KPA]: 'kPa', [Unit.MMHG]: 'mmHg', [Unit.INHG]: 'inHg', [Unit.WORD]: '', [Unit.KELVIN]: 'K', [Unit.PPM_CACO3]: 'ppm CaCO₃',
  },
  basis: {
    [Basis.UNSPECIFIED]: '', [Basis.AS_N]: 'como N', [Basis.AS_NH3]: 'como NH₃', [Basis.AS_NH4]: 'como NH₄', [Basis.AS_NO2]: 'como NO₂', [Basis.AS_NO3]: 'como NO₃', [Basis.AS_CACO3]: 'como CaCO₃',
    [Basis.AS_P]: 'como P', [Basis.AS_PO4]: 'como PO₄',
  },
  method: {
    [Method.UNSPECIFIED]: '', [Method.STRIP]: 'tira', [Method.DROPS]: 'gotas', [Method.METER]: 'medidor de mano', [Method.PROBE]: 'sonda', [Method.EYE]: 'a ojo', [Method.LABORATORY]: 'laboratorio',
  },
  words: {
    [Quantity.APPETITE]: ['nada', 'poco', 'normal', 'bien', 'voraz'],
    [Quantity.CLARITY]: ['opaca', 'turbia', 'velada', 'clara', 'cristalina'],
  },
  cause: {
    [DeathCause.UNSPECIFIED]: 'no se sabe', [DeathCause.OXYGEN]: 'poco oxígeno', [DeathCause.WATER]: 'agua mala', [DeathCause.TEMPERATURE]: 'frío o calor',
    [DeathCause.DISEASE]: 'enfermedad', [DeathCause.HANDLING]: 'manejo', [DeathCause.PREDATOR]: 'un depredador', [DeathCause.JUMPED]: 'saltó fuera',
  },
  pulledFor: {
    [PullingReason.UNSPECIFIED]: 'sin decir', [PullingReason.FINISHED]: 'ya había dado', [PullingReason.PESTS]: 'plagas', [PullingReason.DISEASE]: 'enfermedad', [PullingReason.WEATHER]: 'frío o calor',
    [PullingReason.NUTRIENTS]: 'hambre', [PullingReason.PLACE_NEEDED]: 'hacía falta el sitio',
  },
  substance: {
    [Substance.UNSPECIFIED]: 'algo', [Substance.OTHER]: 'otra cosa', [Substance.SALT]: 'sal', [Substance.POTASSIUM_HYDROXIDE]: 'hidróxido de potasio',
    [Substance.POTASSIUM_CARBONATE]: 'carbonato de potasio', [Substance.POTASSIUM_BICARBONATE]: 'bicarbonato de potasio', [Substance.CALCIUM_HYDROXIDE]: 'hidróxido de calcio',
    [Substance.CALCIUM_CARBONATE]: 'carbonato de calcio', [Substance.SODIUM_BICARBONATE]: 'bicarbonato de sodio', [Substance.IRON_CHELATE]: 'quelato de hierro', [Substance.ACID]: 'un ácido',
    [Substance.AMMONIA]: 'amoníaco', [Substance.DECHLORINATOR]: 'anticloro', [Substance.CARBON_SOURCE]: 'melaza', [Substance.POTASSIUM_SOAP]: 'jabón potásico',
    [Substance.NEEM_OIL]: 'aceite de neem', [Substance.BACILLUS_THURINGIENSIS]: 'Bacillus thuringiensis',
  },
  use: {
    [Use.UNSPECIFIED]: '', [Use.EATEN]: 'comido', [Use.KEPT]: 'guardado fresco', [Use.CANNED]: 'en conserva', [Use.DRIED]: 'secado', [Use.FROZEN]: 'congelado', [Use.FERMENTED]: 'fermentado',
    [Use.BARTERED]: 'trocado', [Use.SOLD]: 'vendido', [Use.GIVEN]: 'regalado', [Use.COMPOSTED]: 'al compost', [Use.FED_BACK]: 'dado a los animales',
  },
  upkeep: {
    [UpkeepKind.UNSPECIFIED]: 'mantenimiento', [UpkeepKind.OTHER]: 'otra cosa', [UpkeepKind.FILTER_CLEANED]: 'limpieza', [UpkeepKind.PROBE_CALIBRATED]: 'sonda calibrada',
    [UpkeepKind.PUMP_SERVICED]: 'bomba revisada', [UpkeepKind.CYCLE_CHANGED]: 'reloj o sifón ajustado', [UpkeepKind.POLLINATED]: 'polinizado a mano', [UpkeepKind.PRUNED]: 'podado o guiado',
    [UpkeepKind.COVER_CHANGED]: 'sombra o ventilas cambiadas',
  },
  incident: {
    [IncidentKind.UNSPECIFIED]: 'algo salió mal', [IncidentKind.OTHER]: 'otra cosa', [IncidentKind.POWER_CUT]: 'corte de luz', [IncidentKind.PUMP_STOPPED]: 'bomba parada',
    [IncidentKind.LEAK]: 'fuga', [IncidentKind.HEATER_FAILED]: 'calentador averiado', [IncidentKind.FISH_DISTRESS]: 'peces en apuros', [IncidentKind.PESTS]: 'plagas', [IncidentKind.WEATHER]: 'tormenta, helada o calor',
  },
  waterSource: {
    [WaterSource.UNSPECIFIED]: 'la de siempre', [WaterSource.TAP]: 'grifo', [WaterSource.WELL]: 'pozo o manantial', [WaterSource.RAIN]: 'lluvia', [WaterSource.SURFACE]: 'río o charca',
  },
  planting: {
    [PlantingMethod.UNSPECIFIED]: 'sembrado en su sitio', [PlantingMethod.DIRECT_SEED]: 'sembrado en su sitio', [PlantingMethod.TRANSPLANT]: 'trasplantado', [PlantingMethod.CUTTING]: 'esqueje o estolón',
    [PlantingMethod.BULB]: 'bulbo, tubérculo o diente',
  },
};
