package server

import (
	"strings"

	"google.golang.org/grpc/codes"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A meaning is what a reason says on the wire and to a person.
type meaning struct {
	code  codes.Code
	words string // what is wrong, where nothing more exact is known
	hint  string // what to do about it
}

// meanings has one row a reason of the contract.
var meanings = map[freshetv1.ErrorReason]meaning{
	freshetv1.ErrorReason_ERROR_REASON_UNAUTHENTICATED: {codes.Unauthenticated,
		"no token, or one that this server does not know", "join with an invitation code and send the token as authorization: Bearer TOKEN"},
	freshetv1.ErrorReason_ERROR_REASON_DEVICE_REVOKED: {codes.Unauthenticated,
		"this device was shut out", "its owner or a steward did so; join again with a new invitation, entries not yet sent are kept on the device"},
	freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS: {codes.PermissionDenied,
		"your role does not allow this", "ask a steward of the cooperative"},
	freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS: {codes.PermissionDenied,
		"it is another member's and not shared this far", "ask the site's grower to share it or to invite you"},
	freshetv1.ErrorReason_ERROR_REASON_INVITATION_INVALID: {codes.PermissionDenied,
		"the invitation does not exist, was used, or has ended", "look at the code once more, or ask for a new one"},
	freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING: {codes.InvalidArgument,
		"it must be given", "fill it in"},
	freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE: {codes.InvalidArgument,
		"it is outside its range", "look at the number, its unit and its decimal point"},
	freshetv1.ErrorReason_ERROR_REASON_TOO_LONG: {codes.InvalidArgument,
		"it is longer than allowed", "shorten it"},
	freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT: {codes.InvalidArgument,
		"it is not UTF-8 text, or holds control characters", "type it anew"},
	freshetv1.ErrorReason_ERROR_REASON_BAD_DATE: {codes.InvalidArgument,
		"it is not a date between 1900 and 2200", "write it as 2026-05-31"},
	freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE: {codes.InvalidArgument,
		"this server does not know the value", "choose another, or have the server brought up to date"},
	freshetv1.ErrorReason_ERROR_REASON_UNIT_MISMATCH: {codes.InvalidArgument,
		"the unit does not fit the quantity", "choose a unit of that quantity"},
	freshetv1.ErrorReason_ERROR_REASON_BASIS_MISMATCH: {codes.InvalidArgument,
		"the basis is missing or does not fit the quantity", "the test kit's leaflet says whether it reads as N or as the ion"},
	freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME: {codes.InvalidArgument,
		"the name is not in the table that it must come from", "choose one from the list"},
	freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD: {codes.NotFound,
		"there is none with this id", "copy the id from a list"},
	freshetv1.ErrorReason_ERROR_REASON_BAD_ID: {codes.InvalidArgument,
		"it is not an id", "copy the id from a list; it has 36 characters"},
	freshetv1.ErrorReason_ERROR_REASON_MORE_THAN_LIVED: {codes.FailedPrecondition,
		"more fish would have left than ever lived in the cohort", "enter the stocking or the count that is missing"},
	freshetv1.ErrorReason_ERROR_REASON_BEFORE_ITS_CAUSE: {codes.FailedPrecondition,
		"it lies before what it rests on", "look at its date"},
	freshetv1.ErrorReason_ERROR_REASON_NUMBER_GAP: {codes.FailedPrecondition,
		"operation numbers have a gap or run backwards", "push from through_number + 1"},
	freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE: {codes.InvalidArgument,
		"the message is larger, or holds more, than allowed", "send it in parts"},
	freshetv1.ErrorReason_ERROR_REASON_MALFORMED: {codes.InvalidArgument,
		"it cannot be read", "compare it with the contract in api/freshet/v1"},
	freshetv1.ErrorReason_ERROR_REASON_GROUP_REFUSED: {codes.FailedPrecondition,
		"another operation of its group was refused", "mend that one and send the group again"},
	freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_FORMULA: {codes.NotFound,
		"no formula has this name", "ListFormulas lists them"},
	freshetv1.ErrorReason_ERROR_REASON_TOO_LITTLE_RECORDED: {codes.FailedPrecondition,
		"too little is recorded to answer", "note more of what the answer rests on"},
	freshetv1.ErrorReason_ERROR_REASON_GROUP_TOO_SMALL: {codes.FailedPrecondition,
		"the group is smaller than the cooperative shows", "share what is compared (freshet share says what your site shares) and ask other growers to; a site needs four months with feed noted on half the days"},
	freshetv1.ErrorReason_ERROR_REASON_LAST_STEWARD: {codes.FailedPrecondition,
		"the last steward cannot step down or leave", "make somebody else a steward first; where nobody else is left, whoever keeps the server takes it down"},
	freshetv1.ErrorReason_ERROR_REASON_INTERNAL: {codes.Internal,
		"something broke in the server", "try again; if it stays, give whoever keeps the server the request id"},
	freshetv1.ErrorReason_ERROR_REASON_UNAVAILABLE: {codes.Unavailable,
		"the server is busy or stopping", "try again later"},
	freshetv1.ErrorReason_ERROR_REASON_TOO_MANY_CALLS: {codes.ResourceExhausted,
		"too many calls", "try again in a minute"},
	freshetv1.ErrorReason_ERROR_REASON_IN_THE_FUTURE: {codes.InvalidArgument,
		"it lies in the future", "look at its date and at the device's clock"},
	freshetv1.ErrorReason_ERROR_REASON_INSTALL_COPIED: {codes.FailedPrecondition,
		"another device pushes as this install", "this copy takes an install of its own when it next syncs"},
	freshetv1.ErrorReason_ERROR_REASON_PHOTO_ROOM_USED: {codes.FailedPrecondition,
		"there is no room left for the files of photos", "take back photos that nobody needs (a photo that is voided frees its room), or ask who keeps the server for more"},
	freshetv1.ErrorReason_ERROR_REASON_PHOTO_DIFFERS: {codes.InvalidArgument,
		"the file that came is not the one that the photo names", "it is sent again from the start; if it stays, take the picture again"},
	freshetv1.ErrorReason_ERROR_REASON_PHOTO_TELLS_MORE: {codes.InvalidArgument,
		"the file holds more than the picture: the place, the camera or words", "note the photo anew; what the camera wrote is taken off first"},
	freshetv1.ErrorReason_ERROR_REASON_PHOTO_TOO_LARGE: {codes.InvalidArgument,
		"the picture is larger than can be looked at safely", "make it smaller and note it anew"},
	freshetv1.ErrorReason_ERROR_REASON_CLOCK_APART: {codes.FailedPrecondition,
		"the device's clock and the server's are too far apart", "the device sets itself by the server's time and signs again"},
	freshetv1.ErrorReason_ERROR_REASON_SIGNATURE_INVALID: {codes.Unauthenticated,
		"the device's signature is not known here, or was used before", "join again with a new invitation; entries not yet sent are kept on the device"},
	freshetv1.ErrorReason_ERROR_REASON_MEMBER_LEFT: {codes.Unauthenticated,
		"you left the co-op, and what was yours is erased there", "this device erases its copy; to come back, ask a steward for a new invitation"},
}

// reasonName is the reason as it travels: "SITE_NOT_YOURS".
func reasonName(reason freshetv1.ErrorReason) string {
	return strings.TrimPrefix(reason.String(), "ERROR_REASON_")
}
