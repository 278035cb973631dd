package server

import (
	"context"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
)

// ListDevices lists the caller's own devices, or for a steward everybody's.
func (a *accountService) ListDevices(ctx context.Context, in *freshetv1.ListDevicesRequest) (*freshetv1.ListDevicesResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	whose := caller.MemberID
	if in.GetAllMembers() {
		if !caller.Is(freshetv1.Role_ROLE_STEWARD) {
			return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, "all_members", "", "leave it out to list your own")
		}
		whose = uuid.Nil
	}
	devices, err := a.store.Devices(ctx, whose)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ListDevicesResponse{}
	for _, device := range devices {
		out.Devices = append(out.Devices, &freshetv1.Device{DeviceId: device.ID.String(), MemberId: device.MemberID.String(),
			Name: device.Name, LastContactMs: milliseconds(device.LastContactAt), Revoked: device.Revoked})
	}
	return out, nil
}

// RevokeDevice ends a device's token. The gate has looked whose it is.
func (a *accountService) RevokeDevice(ctx context.Context, in *freshetv1.RevokeDeviceRequest) (*freshetv1.RevokeDeviceResponse, error) {
	device, err := parseID("device_id", in.GetDeviceId())
	if err != nil {
		return nil, err
	}
	err = a.store.RevokeDevice(ctx, device)
	a.hints.allowed()
	return &freshetv1.RevokeDeviceResponse{}, err
}
