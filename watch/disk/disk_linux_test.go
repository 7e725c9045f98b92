package disk

import (
	"bytes"
	"encoding/binary"
	"testing"

	"golang.org/x/sys/unix"
)

// accessList is the extended attribute of a list that lets user 12345 read as well. Layout:
// linux/posix_acl_xattr.h, version 2: tag, rights, id.
func accessList() []byte {
	const owner, user, group, mask, other = 0x01, 0x02, 0x04, 0x10, 0x20
	const nobody = 0xffffffff
	b := binary.LittleEndian.AppendUint32(nil, 2)
	for _, e := range []struct {
		tag, rights uint16
		id          uint32
	}{{owner, 6, nobody}, {user, 4, 12345}, {group, 4, nobody}, {mask, 4, nobody}, {other, 0, nobody}} {
		b = binary.LittleEndian.AppendUint16(b, e.tag)
		b = binary.LittleEndian.AppendUint16(b, e.rights)
		b = binary.LittleEndian.AppendUint32(b, e.id)
	}
	return b
}

func TestCopyAttributesCarriesTheAccessList(t *testing.T) {
	const name = "system.posix_acl_access"
	from, to, f := pair(t)
	if err := unix.Setxattr(from, name, accessList(), 0); err != nil {
		t.Skipf("no access lists here: %v", err)
	}
	must(t, f.CopyAttributes(from))
	got, err := xattr(func(b []byte) (int, error) { return unix.Getxattr(to, name, b) })
	if err != nil || !bytes.Equal(got, accessList()) {
		t.Errorf("access list % x, %v; want % x", got, err, accessList())
	}
}

func TestAnInheritedAccessListIsTakenAway(t *testing.T) {
	from, to, f := pair(t)
	if err := unix.Setxattr(to, "system.posix_acl_access", accessList(), 0); err != nil {
		t.Skipf("no access lists here: %v", err)
	}
	must(t, f.CopyAttributes(from))
	if got, err := xattr(func(b []byte) (int, error) { return unix.Getxattr(to, "system.posix_acl_access", b) }); err == nil {
		t.Errorf("the new file still has the list % x, the old one has none", got)
	}
}
