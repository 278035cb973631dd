package device

import (
	"hash/fnv"
	"os"
	"strconv"
	"strings"
	"sync"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A Clock says what the device's clocks show now. The server settles from it
// when an entry was made, also where the wall clock is wrong.
type Clock func() *freshetv1.Noted

// ThisMachine reads the clocks of this machine: wall clock, the time since it
// was booted, and which boot that was.
func ThisMachine() Clock {
	boot, monotonic := bootID(), &bootClock{began: time.Now()}
	return func() *freshetv1.Noted {
		now := time.Now()
		_, offset := now.Zone()
		return &freshetv1.Noted{
			WallMs: now.UnixMilli(), MonotonicMs: monotonic.at(now).Milliseconds(), BootId: boot,
			UtcOffsetMinutes: int32(offset / 60),
		}
	}
}

// bootClock counts from the boot of the machine, through its sleep too. Asking
// the system costs microseconds, so it is asked once a second.
type bootClock struct {
	mu    sync.Mutex
	began time.Time // of this process, for systems that do not tell
	asked time.Time
	up    time.Duration
}

func (c *bootClock) at(now time.Time) time.Duration {
	c.mu.Lock()
	defer c.mu.Unlock()
	// Both differences: a machine that slept moved its wall clock only.
	since, wall := now.Sub(c.asked), now.Round(0).Sub(c.asked.Round(0))
	if since < time.Second && wall >= 0 && wall < time.Second {
		return c.up + since
	}
	up, ok := uptime()
	if !ok {
		return now.Sub(c.began)
	}
	c.asked, c.up = now, up
	return up
}

// bootID names this boot; where the system does not tell, this process stands
// for a boot of its own.
func bootID() uint32 {
	h := fnv.New32a()
	b, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		b = strconv.AppendInt(nil, time.Now().UnixNano(), 10)
	}
	_, _ = h.Write(b) // a hash never fails
	return h.Sum32() | 1
}

func uptime() (time.Duration, bool) {
	b, err := os.ReadFile("/proc/uptime")
	if err != nil {
		return 0, false
	}
	words := strings.Fields(string(b))
	if len(words) == 0 {
		return 0, false
	}
	seconds, err := strconv.ParseFloat(words[0], 64)
	return time.Duration(seconds * float64(time.Second)), err == nil
}
