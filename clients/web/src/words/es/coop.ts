// Spanish for the cooperative: joining, what waits, what was refused, the others.
import type { Say } from '../say';
import { together } from './together';

export const coop = (say: Say) => ({
  join: {
    title: 'Entrar en una cooperativa', lead: 'Un responsable te da una invitación: un cuadro para leer o un código para escribir. Lo que hayas anotado viene contigo.',
    code: 'El código', person: 'Tu nombre, como lo ven los demás', phone: 'Cómo llamas a este teléfono', phoneUsual: 'Mi teléfono', address: 'Dirección del servidor de la cooperativa', other: 'Otro servidor',
    join: 'Entrar', joining: 'Preguntando a la cooperativa', joined: 'Estás dentro. Sus registros vienen de camino a este teléfono.', already: 'Este teléfono está en una cooperativa.', scan: 'Leer la invitación',
    code8: 'Mayúsculas, espacios y guiones no importan.',
  },
  outbox: {
    title: 'Lo que espera', now: 'Probar ahora', trying: 'Hablando con la cooperativa', file: 'Guardar lo que espera en un archivo', fileWords: 'Para cuando este teléfono falla: un responsable puede leer el archivo.',
    refused: (n: number) => say.count(n, { one: '# nota fue rechazada', other: '# notas fueron rechazadas' }), held: (n: number) => say.count(n, { one: '# nota espera a un responsable', other: '# notas esperan a un responsable' }),
    pictures: (n: number) => say.count(n, { one: '# foto solo está en este teléfono; va cuando ya no espera ninguna nota.', other: '# fotos solo están en este teléfono; van cuando ya no espera ninguna nota.' }),
    look: 'Verlas', none: 'Nada fue rechazado y nada espera a nadie.', entry: 'Una nota', record: 'Un cambio de lo escrito del lugar', wasRefused: 'Rechazada', isHeld: 'En espera', read: 'Lo he leído', again: 'Anotarlo de nuevo', rightDay: 'Lo fechó un reloj que iba adelantado. Según el reloj de la cooperativa era entonces:', sendAgain: 'Enviarlo con este día', dropIt: 'Dejarlo fuera', field: (f: string) => `Se trata de «${f}».`,
    storage: (used: string, of: string) => `Este cuaderno usa ${used} de ${of} aquí.`, lasting: 'El navegador ha prometido guardarlo.', notLasting: 'El navegador puede borrarlo si falta sitio: instala la aplicación o entra en una cooperativa.',
    megabytes: (mb: number) => `${say.number(mb, 2)}\u00a0MB`, leave: 'Olvidar este cuaderno', leaveSure: 'Se borra todo en este teléfono. Lo que tiene la cooperativa se queda allí.', leaveWaiting: (n: number) => say.count(n, { one: '# nota solo está aquí y se perdería.', other: '# notas solo están aquí y se perderían.' }), leaveYes: 'Sí, olvidarlo',
    clock: (minutes: number) => `El reloj de este teléfono va desviado ${Math.abs(minutes) < 2880 ? say.count(Math.abs(minutes), { one: '# minuto', other: '# minutos' }) : say.count(Math.round(Math.abs(minutes) / 1440), { one: '# día', other: '# días' })}.`,
    clockThen: 'Desde ahora lo anotado lleva la fecha del reloj de la cooperativa. Lo anotado antes lleva el día y la hora que mostraba este teléfono: se te pregunta por ello, si el reloj iba atrasado. Pon el reloj en hora.',
    slow: (n: number) => say.count(n, { one: '# anotación tiene el día de un reloj atrasado.', other: '# anotaciones tienen el día de un reloj atrasado.' }),
    slowTitle: 'Anotado con un reloj atrasado', slowLead: 'El reloj de este teléfono iba atrasado cuando se anotó esto. Según el reloj de la cooperativa era entonces:', slowInstead: (shown: string) => `en vez de ${shown}`,
    dateRight: 'Corregir los días', dateLeave: 'Dejarlos como están', dated: 'Días corregidos',
  },
  trouble: {
    NO_SIGNAL: ['Sin noticias del servidor de la cooperativa.', 'Se prueba otra vez cuando haya red.'], NO_ANSWER: ['El servidor de la cooperativa no respondió a tiempo.', 'Se prueba otra vez.'],
    FOREIGN_ANSWER: ['Otra cosa respondió en lugar del servidor.', 'Quizá la red pide registrarse antes. Se prueba otra vez.'], OTHER_COOPERATIVE: ['El servidor de esta dirección es de otra cooperativa.', 'No se envió nada. Pide a tu responsable la dirección buena.'],
    STORAGE_FULL: ['A este teléfono no le queda sitio.', 'No se anotó nada. Haz sitio, o envía lo que espera, y anótalo otra vez.'], NOT_JOINED: ['Este teléfono no está en ninguna cooperativa.', 'Pide una invitación a un responsable.'],
    ENTRIES_WAIT: ['Hay notas solo en este teléfono.', 'Envíalas antes, o guárdalas en un archivo.'], UNAUTHENTICATED: ['La cooperativa ya no conoce este teléfono.', 'No se pierde nada. Entra de nuevo con otra invitación.'],
    TOO_MANY_CALLS: ['La cooperativa no da abasto con este teléfono ahora.', 'Se envía solo un poco más tarde.'], MEMBER_LEFT: ['Dejaste la cooperativa y lo tuyo se borró allí.', 'Para volver, pide una invitación a un responsable.'], DEVICE_REVOKED: ['Un responsable cerró la puerta a este teléfono.', 'No se pierde nada. Pide otra invitación.'], ROLE_FORBIDS: ['Tu papel en la cooperativa no permite esto.', 'Pregunta a un responsable.'], SITE_NOT_YOURS: ['No puedes escribir en este lugar.', 'Pide a un responsable que te dé el lugar.'],
    INVITATION_INVALID: ['Esta invitación no vale, o ya se usó.', 'Mira otra vez el código, o pide otra.'], FIELD_MISSING: ['Falta algo que hace falta.', 'Anótalo otra vez completo.'], OUT_OF_RANGE: ['Un número está donde no puede estar.', 'Mira los dígitos y la unidad.'],
    TOO_LONG: ['Un texto es demasiado largo.', 'Hazlo más corto.'], BAD_TEXT: ['Un texto tiene signos que no se pueden guardar.', 'Escríbelo otra vez.'], BAD_DATE: ['Una fecha no lo es.', 'Pon el día otra vez.'], UNKNOWN_VALUE: ['El servidor no conoce una de las opciones.', 'Quizá la aplicación es más nueva que el servidor.'],
    UNIT_MISMATCH: ['La unidad no corresponde a lo medido.', 'Elige la unidad que da tu prueba.'], BASIS_MISMATCH: ['La base no corresponde a lo medido.', 'Elige la base que da tu prueba.'], UNKNOWN_NAME: ['Un cultivo o pez con ese nombre no está en las tablas.', 'Elige uno de la lista.'],
    UNKNOWN_RECORD: ['Nombra un sitio, pez o cultivo que la cooperativa no tiene.', 'Quizá se quitó.'], BAD_ID: ['Una identidad está mal formada.', 'Díselo a un responsable; es un fallo de la aplicación.'], MORE_THAN_LIVED: ['Salieron más peces de los que entraron.', 'Quizá una entrada o un conteo está en otro teléfono.'],
    BEFORE_ITS_CAUSE: ['Pasó antes de aquello de lo que viene.', 'Mira el día.'], NUMBER_GAP: ['Las notas llegaron desordenadas.', 'Se envían otra vez.'], TOO_LARGE: ['Es demasiado grande para enviarlo.', 'Hazlo más pequeño.'], MALFORMED: ['El servidor no pudo leerlo.', 'Díselo a un responsable; es un fallo de la aplicación.'],
    GROUP_REFUSED: ['Se rechazó junto con lo que va con ello.', 'Mira la otra nota.'], UNKNOWN_FORMULA: ['El servidor no conoce esa fórmula.', 'Quizá la aplicación es más nueva que el servidor.'], TOO_LITTLE_RECORDED: ['Hay poco anotado para responder.', 'Anota más y pregunta otra vez.'],
    GROUP_TOO_SMALL: ['Muy pocos lugares comparten esto para comparar sin que se vea quién es quién.', 'Aparece cuando compartan más.'], LAST_STEWARD: ['Una cooperativa conserva al menos un responsable.', 'Haz antes responsable a otra persona.'], INTERNAL: ['Algo falló en el servidor.', 'Se prueba otra vez.'], UNAVAILABLE: ['El servidor no puede responder ahora.', 'Se prueba otra vez.'],
    IN_THE_FUTURE: ['Está en el futuro.', 'Mira el día y el reloj del teléfono.'], INSTALL_COPIED: ['Este teléfono se copió de otro.', 'Sigue con un nombre propio.'],
    PHOTO_ROOM_USED: ['No queda sitio para más fotos.', 'Anula fotos que nadie necesita, o pregunta a quien lleva el servidor.'],
    PHOTO_DIFFERS: ['La foto que llegó no es la anotada.', 'Se envía otra vez; si sigue igual, hazla de nuevo.'],
    PHOTO_TELLS_MORE: ['El archivo dice más que la imagen, como el lugar.', 'Haz la foto otra vez; eso se quita.'],
    PHOTO_TOO_LARGE: ['La foto es demasiado grande.', 'Hazla más pequeña y anótala otra vez.'],
    CLOCK_APART: ['El reloj del teléfono está lejos del del servidor.', 'El teléfono se corrige solo; se prueba otra vez.'], SIGNATURE_INVALID: ['El servidor no conoce este teléfono.', 'No se pierde nada. Pide otra invitación.'],
  } as Record<string, [what: string, hint: string]>,
  ...together(say),
});
