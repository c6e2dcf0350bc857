/* Two ptys joined by a wire of 115200 baud 8N1: bytes arrive when their last bit would, and the device's answer begins
   1.75 ms after its request (MODBUS over Serial Line V1.02, 2.5.1.1). Prints the two names, then "ready". */
#define _GNU_SOURCE
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#define CHARACTER_NS 86806LL /* 10 bits at 115200 baud */
#define SILENCE_NS 1750000LL

static int open_pty(void)
{
    int master = posix_openpt(O_RDWR | O_NOCTTY);
    grantpt(master);
    unlockpt(master);
    int slave = open(ptsname(master), O_RDWR | O_NOCTTY); /* stays open, so the master never sees a hang-up */
    struct termios t;
    tcgetattr(slave, &t);
    cfmakeraw(&t);
    tcsetattr(slave, TCSANOW, &t);
    puts(ptsname(master));
    return master;
}

static long long now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static void wait_until(long long ns)
{
    struct timespec t = {ns / 1000000000LL, ns % 1000000000LL};
    clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL);
}

int main(void)
{
    struct pollfd ends[2] = {{open_pty(), POLLIN, 0}, {open_pty(), POLLIN, 0}};
    puts("ready");
    fflush(stdout);
    for (;;) {
        poll(ends, 2, -1);
        for (int i = 0; i < 2; i++) {
            char bytes[512];
            ssize_t n = ends[i].revents & POLLIN ? read(ends[i].fd, bytes, sizeof bytes) : 0;
            if (n > 0) {
                wait_until(now_ns() + n * CHARACTER_NS + (i == 1 ? SILENCE_NS : 0));
                if (write(ends[1 - i].fd, bytes, (size_t)n) != n) {
                    return 1;
                }
            }
        }
    }
}
