// English for the cooperative: joining, what waits, what was refused, the others.
import type { Say } from '../say';
import { together } from './together';

export const coop = (say: Say) => ({
  join: {
    title: 'Join a cooperative', lead: 'A steward gives you an invitation: a square to scan, or a code to type. What you have noted so far comes along.',
    code: 'The code', person: 'Your name, as the others see it', phone: 'What you call this phone', phoneUsual: 'My phone', address: 'Address of the cooperative’s server', other: 'Another server',
    join: 'Join', joining: 'Asking the cooperative', joined: 'You are in. Its records are on their way to this phone.', already: 'This phone is in a cooperative.', scan: 'Scan the invitation',
    code8: 'Capitals, spaces and hyphens do not matter.',
  },
  outbox: {
    title: 'What waits', now: 'Try now', trying: 'Talking to the cooperative', file: 'Keep what waits as a file', fileWords: 'For when this phone is failing: a steward can read the file in.',
    refused: (n: number) => say.count(n, { one: '# entry was refused', other: '# entries were refused' }), held: (n: number) => say.count(n, { one: '# entry is held for a steward', other: '# entries are held for a steward' }),
    pictures: (n: number) => say.count(n, { one: '# picture is only on this phone; it goes once every entry has gone.', other: '# pictures are only on this phone; they go once every entry has gone.' }),
    look: 'Look at them', none: 'Nothing was refused and nothing is held.', entry: 'An entry', record: 'A change of what is written of the place', wasRefused: 'Refused', isHeld: 'Held', read: 'I have read it', again: 'Note it anew', rightDay: 'It was dated by a clock that ran ahead. By the cooperative’s clock it was then:', sendAgain: 'Send it with this day', dropIt: 'Leave it out', field: (f: string) => `It is about “${f}”.`,
    storage: (used: string, of: string) => `This notebook uses ${used} of ${of} here.`, lasting: 'The browser has promised to keep it.', notLasting: 'The browser may clear it when room is short: install the app, or join a cooperative.',
    megabytes: (mb: number) => `${say.number(mb, 2)}\u00a0MB`, leave: 'Forget this notebook', leaveSure: 'Everything on this phone is deleted. What the cooperative has stays there.', leaveWaiting: (n: number) => say.count(n, { one: '# entry is only here and would be lost.', other: '# entries are only here and would be lost.' }), leaveYes: 'Yes, forget it',
    clock: (minutes: number) => `This phone’s clock is ${Math.abs(minutes) < 2880 ? say.count(Math.abs(minutes), { one: '# minute', other: '# minutes' }) : say.count(Math.round(Math.abs(minutes) / 1440), { one: '# day', other: '# days' })} off.`,
    clockThen: 'From now on what is noted is dated by the cooperative’s clock. What was noted before has the day and hour that this phone showed: you are asked of it, where the clock was slow. Set the clock right.',
    slow: (n: number) => say.count(n, { one: '# entry has its day from a clock that ran behind.', other: '# entries have their day from a clock that ran behind.' }),
    slowTitle: 'Noted by a slow clock', slowLead: 'This phone’s clock ran behind when this was noted. By the cooperative’s clock it was then:', slowInstead: (shown: string) => `instead of ${shown}`,
    dateRight: 'Put the days right', dateLeave: 'Leave them as they are', dated: 'Days put right',
  },
  trouble: {
    NO_SIGNAL: ['No word from the cooperative’s server.', 'It is tried again when there is a network.'], NO_ANSWER: ['The cooperative’s server did not answer in time.', 'It is tried again.'],
    FOREIGN_ANSWER: ['Something else answered in the server’s place.', 'A network may want a sign-in first. It is tried again.'], OTHER_COOPERATIVE: ['The server at this address is another cooperative’s.', 'Nothing was sent. Ask your steward for the right address.'],
    STORAGE_FULL: ['This phone has no room left.', 'Nothing was noted. Free some room, or send what waits, and note it again.'], NOT_JOINED: ['This phone is in no cooperative.', 'Ask a steward for an invitation.'],
    ENTRIES_WAIT: ['Entries are only on this phone.', 'Send them first, or keep them as a file.'], UNAUTHENTICATED: ['The cooperative does not know this phone any more.', 'Nothing is lost. Join again with a new invitation.'],
    TOO_MANY_CALLS: ['The cooperative has too much to do for this phone right now.', 'It is sent by itself a little later.'], MEMBER_LEFT: ['You left the cooperative, and what was yours is erased there.', 'Ask a steward for an invitation to come back.'], DEVICE_REVOKED: ['A steward has shut this phone out.', 'Nothing is lost. Ask for a new invitation.'], ROLE_FORBIDS: ['Your part in the cooperative does not allow this.', 'Ask a steward.'], SITE_NOT_YOURS: ['You may not write for this site.', 'Ask a steward to give you the site.'],
    INVITATION_INVALID: ['This invitation is not valid, or was used already.', 'Look at the code again, or ask for a new one.'], FIELD_MISSING: ['Something that is needed was left out.', 'Note it again in full.'], OUT_OF_RANGE: ['A number lies where it cannot be.', 'Look at the digits and the unit.'],
    TOO_LONG: ['A text is too long.', 'Make it shorter.'], BAD_TEXT: ['A text holds characters that cannot be kept.', 'Type it again.'], BAD_DATE: ['A date is not one.', 'Set the day again.'], UNKNOWN_VALUE: ['The server does not know one of the choices.', 'The app may be newer than the server.'],
    UNIT_MISMATCH: ['The unit does not fit what was read.', 'Pick the unit your kit prints.'], BASIS_MISMATCH: ['The basis does not fit what was read.', 'Pick the basis your kit prints.'], UNKNOWN_NAME: ['A crop or fish of that name is not in the tables.', 'Pick one from the list.'],
    UNKNOWN_RECORD: ['It names a place, fish or planting that the cooperative does not have.', 'It may have been taken away.'], BAD_ID: ['An identity is not well formed.', 'Tell a steward; this is a fault of the app.'], MORE_THAN_LIVED: ['More fish left than ever came.', 'A stocking or a count may still be on another phone.'],
    BEFORE_ITS_CAUSE: ['It happened before what it follows from.', 'Look at the day.'], NUMBER_GAP: ['Entries arrived out of order.', 'They are sent again.'], TOO_LARGE: ['It is too large to send.', 'Make it smaller.'], MALFORMED: ['The server could not read it.', 'Tell a steward; this is a fault of the app.'],
    GROUP_REFUSED: ['It was refused together with what belongs to it.', 'Look at the other entry.'], UNKNOWN_FORMULA: ['The server does not know that formula.', 'The app may be newer than the server.'], TOO_LITTLE_RECORDED: ['Too little is recorded to answer.', 'Note more, and ask again.'],
    GROUP_TOO_SMALL: ['Too few sites share this to compare without showing who is who.', 'It appears when more share it.'], LAST_STEWARD: ['A cooperative keeps at least one steward.', 'Make another a steward first.'], INTERNAL: ['Something failed in the server.', 'It is tried again.'], UNAVAILABLE: ['The server cannot answer now.', 'It is tried again.'],
    IN_THE_FUTURE: ['It lies in the future.', 'Look at the day and the phone’s clock.'], INSTALL_COPIED: ['This phone was copied from another.', 'It goes on under a name of its own.'],
    PHOTO_ROOM_USED: ['There is no room left for pictures.', 'Take back photos that nobody needs, or ask who keeps the server.'],
    PHOTO_DIFFERS: ['The picture that came is not the one noted.', 'It is sent again; if it stays, take it again.'],
    PHOTO_TELLS_MORE: ['The file tells more than the picture, such as the place.', 'Take the photo again; that is left off.'],
    PHOTO_TOO_LARGE: ['The picture is too large.', 'Make it smaller and note it again.'],
    CLOCK_APART: ['The phone’s clock is far from the server’s.', 'The phone corrects itself; it is tried again.'], SIGNATURE_INVALID: ['The server does not know this phone.', 'Nothing is lost. Ask for a new invitation.'],
  } as Record<string, [what: string, hint: string]>,
  ...together(say),
});
