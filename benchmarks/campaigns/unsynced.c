/* Write down what a process does to files under a folder, in order, for `unsynced.py` to replay.
 *
 * Loaded before the C library (LD_PRELOAD). Each call is done as asked, then written down; a line is
 *   C inode path      made        W inode offset length, then the bytes     T inode size
 *   S inode           synced      D path      a folder synced               M path   a folder made
 *   R path path       renamed     U path      unlinked
 * UNSYNCED_ROOT is the folder, UNSYNCED_LOG the file written to.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

#define MOST 4096
static char kept[MOST][PATH_MAX]; /* path of each open descriptor that we follow, or "" */
static unsigned long long inode[MOST];
static char is_folder[MOST];
static pthread_mutex_t turn = PTHREAD_RECURSIVE_MUTEX_INITIALIZER_NP;
static int out = -1;

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

static ssize_t (*real_write)(int, const void *, size_t);

static void note(const char *line, const void *data, size_t size) {
    if (!real_write) real_write = REAL(write);
    if (out < 0) {
        int (*real_open)(const char *, int, ...) = REAL(open);
        out = real_open(getenv("UNSYNCED_LOG"), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
        if (out < 0) abort();
    }
    struct iovec parts[2] = {{(void *)line, strlen(line)}, {(void *)data, size}};
    ssize_t (*real_writev)(int, const struct iovec *, int) = REAL(writev);
    if (real_writev(out, parts, size ? 2 : 1) != (ssize_t)(strlen(line) + size)) abort();
}

static int ours(const char *path, char *whole) {
    const char *root = getenv("UNSYNCED_ROOT");
    if (!root || !path) return 0;
    if (path[0] == '/') snprintf(whole, PATH_MAX, "%s", path);
    else {
        char here[PATH_MAX / 2];
        if (!getcwd(here, sizeof here)) return 0;
        snprintf(whole, PATH_MAX, "%s/%.2000s", here, path);
    }
    return strncmp(whole, root, strlen(root)) == 0;
}

static void opened(int fd, const char *whole, int fresh, int flags) {
    char line[PATH_MAX + 64];
    struct stat about;
    if (fd < 0 || fd >= MOST || fstat(fd, &about)) return;
    strcpy(kept[fd], whole);
    inode[fd] = about.st_ino;
    is_folder[fd] = S_ISDIR(about.st_mode);
    if (is_folder[fd]) return;
    if (fresh) {
        snprintf(line, sizeof line, "C %llu %s\n", inode[fd], whole);
        note(line, NULL, 0);
    } else if (flags & O_TRUNC) {
        snprintf(line, sizeof line, "T %llu 0\n", inode[fd]);
        note(line, NULL, 0);
    }
}

static int open_any(int at, const char *path, int flags, mode_t mode) {
    int (*real)(int, const char *, int, ...) = REAL(openat);
    char whole[PATH_MAX];
    if ((at != AT_FDCWD && path[0] != '/') || !ours(path, whole)) return real(at, path, flags, mode);
    pthread_mutex_lock(&turn);
    int fresh = (flags & O_CREAT) && access(whole, F_OK) != 0;
    int fd = real(at, path, flags, mode), why = errno;
    opened(fd, whole, fresh, flags);
    pthread_mutex_unlock(&turn);
    errno = why;
    return fd;
}

#define OPEN(name)                                   \
    int name(const char *path, int flags, ...) {     \
        va_list more;                                \
        va_start(more, flags);                       \
        mode_t mode = va_arg(more, mode_t);          \
        va_end(more);                                \
        return open_any(AT_FDCWD, path, flags, mode);\
    }
OPEN(open)
OPEN(open64)
#define OPENAT(name)                                         \
    int name(int at, const char *path, int flags, ...) {     \
        va_list more;                                        \
        va_start(more, flags);                               \
        mode_t mode = va_arg(more, mode_t);                  \
        va_end(more);                                        \
        return open_any(at, path, flags, mode);              \
    }
OPENAT(openat)
OPENAT(openat64)

static int followed(int fd) { return fd >= 0 && fd < MOST && kept[fd][0] && !is_folder[fd]; }

static void wrote(int fd, off_t place, const void *data, ssize_t size) {
    char line[96];
    if (size <= 0) return;
    snprintf(line, sizeof line, "W %llu %lld %lld\n", inode[fd], (long long)place, (long long)size);
    note(line, data, size);
}

ssize_t write(int fd, const void *data, size_t size) {
    if (!real_write) real_write = REAL(write);
    if (!followed(fd)) return real_write(fd, data, size);
    pthread_mutex_lock(&turn);
    ssize_t done = real_write(fd, data, size);
    int why = errno;
    if (done > 0) wrote(fd, lseek(fd, 0, SEEK_CUR) - done, data, done);
    pthread_mutex_unlock(&turn);
    errno = why;
    return done;
}

#define PWRITE(name)                                                    \
    ssize_t name(int fd, const void *data, size_t size, off_t place) {  \
        ssize_t (*real)(int, const void *, size_t, off_t) = REAL(name); \
        if (!followed(fd)) return real(fd, data, size, place);          \
        pthread_mutex_lock(&turn);                                      \
        ssize_t done = real(fd, data, size, place);                     \
        int why = errno;                                                \
        wrote(fd, place, data, done);                                   \
        pthread_mutex_unlock(&turn);                                    \
        errno = why;                                                    \
        return done;                                                    \
    }
PWRITE(pwrite)
PWRITE(pwrite64)

#define DO_AND_NOTE(real_call, good, ...)           \
    pthread_mutex_lock(&turn);                      \
    int done = real_call, why = errno;              \
    if (good) {                                     \
        char line[2 * PATH_MAX + 64];               \
        snprintf(line, sizeof line, __VA_ARGS__);   \
        note(line, NULL, 0);                        \
    }                                               \
    pthread_mutex_unlock(&turn);                    \
    errno = why;                                    \
    return done;

#define TRUNCATE(name)                                                                              \
    int name(int fd, off_t size) {                                                                  \
        int (*real)(int, off_t) = REAL(name);                                                       \
        DO_AND_NOTE(real(fd, size), done == 0 && followed(fd), "T %llu %lld\n", inode[fd], (long long)size) \
    }
TRUNCATE(ftruncate)
TRUNCATE(ftruncate64)

/* What was written before the call began is what a sync is good for. One thread writes at a time. */
static int sync_any(int fd, int (*real)(int)) {
    if (fd >= 0 && fd < MOST && kept[fd][0] && is_folder[fd]) {
        DO_AND_NOTE(real(fd), done == 0, "D %s\n", kept[fd])
    }
    DO_AND_NOTE(real(fd), done == 0 && followed(fd), "S %llu\n", inode[fd])
}
int fsync(int fd) { return sync_any(fd, REAL(fsync)); }
int fdatasync(int fd) { return sync_any(fd, REAL(fdatasync)); }

int close(int fd) {
    int (*real)(int) = REAL(close);
    if (fd >= 0 && fd < MOST) kept[fd][0] = 0;
    return real(fd);
}

int mkdir(const char *path, mode_t mode) {
    int (*real)(const char *, mode_t) = REAL(mkdir);
    char whole[PATH_MAX];
    DO_AND_NOTE(real(path, mode), done == 0 && ours(path, whole), "M %s\n", whole)
}

int rename(const char *from, const char *to) {
    int (*real)(const char *, const char *) = REAL(rename);
    char one[PATH_MAX], other[PATH_MAX];
    DO_AND_NOTE(real(from, to), done == 0 && ours(from, one) && ours(to, other), "R %s %s\n", one, other)
}

int unlink(const char *path) {
    int (*real)(const char *) = REAL(unlink);
    char whole[PATH_MAX];
    DO_AND_NOTE(real(path), done == 0 && ours(path, whole), "U %s\n", whole)
}
