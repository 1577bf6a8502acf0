package store

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// sysCall is a call that a traced process made of the system, about a file: what it would do to the disk.
type sysCall struct {
	nr int64
	// file is the path of the file or directory that is written, cut or synced, or that gets a new name; name is that name.
	file, name string
	data       []byte
	at, size   int64
	// ret is what the system gave, below 0 an error's number.
	ret int64
}

func (c *sysCall) String() string {
	return fmt.Sprintf("%s %s %s at %d, %d bytes, size %d: %d", callNames[c.nr], c.file, c.name, c.at, len(c.data), c.size, c.ret)
}

// verdict is what becomes of a call: refused with an error instead of done, or done and an error reported all the same.
type verdict struct {
	refuse, report syscall.Errno
}

// callNames are the calls that change a disk. Those of unknownCalls do too, and the store makes none of them.
var callNames = map[int64]string{
	unix.SYS_WRITE: "write", unix.SYS_PWRITE64: "pwrite", unix.SYS_FSYNC: "fsync", unix.SYS_FDATASYNC: "fdatasync",
	unix.SYS_FTRUNCATE: "ftruncate", unix.SYS_LINKAT: "linkat", unix.SYS_RENAMEAT: "renameat", unix.SYS_UNLINKAT: "unlinkat",
	unix.SYS_OPENAT: "openat", unix.SYS_MKDIRAT: "mkdirat",
}

var unknownCalls = map[int64]bool{
	unix.SYS_WRITEV: true, unix.SYS_PWRITEV: true, unix.SYS_PWRITEV2: true, unix.SYS_FALLOCATE: true, unix.SYS_TRUNCATE: true,
	unix.SYS_COPY_FILE_RANGE: true, unix.SYS_SENDFILE: true, unix.SYS_MSYNC: true, unix.SYS_RENAME: true, unix.SYS_LINK: true,
	unix.SYS_RENAMEAT2: true, unix.SYS_SYNC_FILE_RANGE: true, unix.SYS_IO_URING_ENTER: true,
}

// traceSelf runs the test binary again with one test and an environment, and tells of each call that changes a disk: judge
// says what becomes of it, seen hears of it when it is done. The words that the process writes to its output are calls as
// well, and so stand in order between the others. It gives the exit code.
//
// The calls are the system's own, by ptrace: nothing of the store or of the library is replaced for it.
func traceSelf(t *testing.T, test string, env []string, judge func(*sysCall) verdict, seen func(*sysCall)) int {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	out, err := os.CreateTemp(t.TempDir(), "out")
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	// All that is asked of a traced process has to come from the thread that began it.
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	pid, err := syscall.ForkExec(self, []string{self, "-test.run=^" + test + "$", "-test.count=1"}, &syscall.ProcAttr{
		Env:   append(append(os.Environ(), "GOMAXPROCS=2", "GODEBUG=asyncpreemptoff=1"), env...),
		Files: []uintptr{0, out.Fd(), out.Fd()}, Sys: &syscall.SysProcAttr{Ptrace: true},
	})
	if err != nil {
		t.Skipf("this machine lets no process be traced: %v", err)
	}
	p := &tracer{pid: pid, judge: judge, seen: seen, threads: map[int]*thread{}}
	code, err := p.run()
	if err != nil {
		t.Fatal(err)
	}
	if code != 0 {
		said, _ := os.ReadFile(out.Name())
		t.Logf("the traced process said:\n%s", said)
	}
	return code
}

// tracer follows a process and its threads.
type tracer struct {
	pid     int
	judge   func(*sysCall) verdict
	seen    func(*sysCall)
	threads map[int]*thread
}

// thread is a thread of the process; inside says that it is inside a call, of which call and verdict tell.
type thread struct {
	inside  bool
	call    *sysCall
	verdict verdict
}

func (p *tracer) run() (code int, err error) {
	var ws syscall.WaitStatus
	if _, err := syscall.Wait4(p.pid, &ws, unix.WALL, nil); err != nil {
		return 0, err
	}
	const sysGood, clone, exitKill = 0x1, 0x8, 0x100000
	if err := syscall.PtraceSetOptions(p.pid, sysGood|clone|exitKill); err != nil {
		return 0, err
	}
	p.threads[p.pid] = &thread{}
	if err := syscall.PtraceSyscall(p.pid, 0); err != nil {
		return 0, err
	}
	for {
		tid, err := syscall.Wait4(-1, &ws, unix.WALL|unix.WNOTHREAD, nil)
		switch {
		case err == syscall.EINTR:
			continue
		case err == syscall.ECHILD:
			return code, nil
		case err != nil:
			return 0, err
		case ws.Exited() || ws.Signaled():
			if tid == p.pid {
				code = ws.ExitStatus()
			}
			continue
		}
		sig, err := p.stopped(tid, ws)
		if err != nil {
			return 0, err
		}
		// One that is gone meanwhile is told of next.
		if err := syscall.PtraceSyscall(tid, sig); err != nil && err != syscall.ESRCH {
			return 0, err
		}
	}
}

// stopped takes in why a thread stopped, and gives the signal that it is to get.
func (p *tracer) stopped(tid int, ws syscall.WaitStatus) (sig int, err error) {
	t, known := p.threads[tid]
	if !known {
		p.threads[tid] = &thread{}
	}
	switch s := ws.StopSignal(); {
	case s == syscall.SIGTRAP|0x80:
		if !t.inside {
			t.inside = true
			return 0, p.enters(tid, t)
		}
		t.inside = false
		return 0, p.leaves(tid, t)
	case s == syscall.SIGTRAP, s == syscall.SIGSTOP && !known:
		return 0, nil
	default:
		return int(s), nil
	}
}

func (p *tracer) enters(tid int, t *thread) error {
	var regs syscall.PtraceRegs
	if err := syscall.PtraceGetRegs(tid, &regs); err != nil {
		return gone(err)
	}
	t.call, t.verdict = nil, verdict{}
	nr := int64(regs.Orig_rax)
	if unknownCalls[nr] {
		return fmt.Errorf("the process makes call %d, of which the model of the disk knows nothing", nr)
	}
	if callNames[nr] == "" {
		return nil
	}
	c, err := p.read(&regs)
	if err != nil || c == nil {
		return err
	}
	t.call, t.verdict = c, p.judge(c)
	if t.verdict.refuse == 0 {
		return nil
	}
	// There is no such call: the system does nothing.
	regs.Orig_rax = ^uint64(0)
	return gone(syscall.PtraceSetRegs(tid, &regs))
}

func (p *tracer) leaves(tid int, t *thread) error {
	if t.call == nil {
		return nil
	}
	var regs syscall.PtraceRegs
	if err := syscall.PtraceGetRegs(tid, &regs); err != nil {
		return gone(err)
	}
	if wrong := t.verdict.refuse | t.verdict.report; wrong != 0 {
		regs.Rax = -uint64(wrong)
		if err := syscall.PtraceSetRegs(tid, &regs); err != nil {
			return gone(err)
		}
	}
	t.call.ret = int64(regs.Rax)
	p.seen(t.call)
	return nil
}

// gone forgives that a thread has ended.
func gone(err error) error {
	if err == syscall.ESRCH {
		return nil
	}
	return err
}

// read reads a call's arguments, nil for one that changes nothing.
func (p *tracer) read(r *syscall.PtraceRegs) (*sysCall, error) {
	c := &sysCall{nr: int64(r.Orig_rax)}
	var err error
	switch c.nr {
	case unix.SYS_WRITE, unix.SYS_PWRITE64:
		c.file = p.fd(r.Rdi)
		c.data, err = p.memory(r.Rsi, int(r.Rdx))
		if c.at = int64(r.R10); c.nr == unix.SYS_WRITE {
			c.at = -1
		}
		if !strings.HasPrefix(c.file, "/") {
			return nil, nil
		}
	case unix.SYS_FSYNC, unix.SYS_FDATASYNC:
		c.file = p.fd(r.Rdi)
	case unix.SYS_FTRUNCATE:
		c.file, c.size = p.fd(r.Rdi), int64(r.Rsi)
	case unix.SYS_OPENAT:
		if r.Rdx&unix.O_CREAT == 0 {
			return nil, nil
		}
		c.file, err = p.text(r.Rsi)
	case unix.SYS_MKDIRAT, unix.SYS_UNLINKAT:
		c.file, err = p.text(r.Rsi)
	case unix.SYS_LINKAT, unix.SYS_RENAMEAT:
		if c.file, err = p.text(r.Rsi); err == nil {
			c.name, err = p.text(r.R10)
		}
	}
	return c, err
}

func (p *tracer) fd(n uint64) string {
	path, err := os.Readlink(fmt.Sprintf("/proc/%d/fd/%d", p.pid, n))
	if err != nil {
		return ""
	}
	return path
}

func (p *tracer) memory(at uint64, n int) ([]byte, error) {
	b := make([]byte, n)
	f, err := os.Open(filepath.Join("/proc", fmt.Sprint(p.pid), "mem"))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	n, err = f.ReadAt(b, int64(at))
	return b[:n], err
}

// text reads a text that ends with the byte 0.
func (p *tracer) text(at uint64) (string, error) {
	const most = 1 << 10
	b, err := p.memory(at, most)
	if text, _, ok := strings.Cut(string(b), "\x00"); ok {
		return text, nil
	}
	return "", fmt.Errorf("a path that is longer than %d: %w", most, err)
}
