/* A Modbus server on libmodbus, to measure against. Usage: tcp PORT DELAY_US | rtu - DELAY_US. With rtu it makes a pty,
   serves on its master end, and prints the name of the other. Says "ready" when it serves. Input registers are 1000 + i. */
#define _GNU_SOURCE
#include <fcntl.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

enum { COUNT = 200, DEVICE = 5 };

static int open_pty(void)
{
    int master = posix_openpt(O_RDWR | O_NOCTTY);
    grantpt(master);
    unlockpt(master);
    int other = open(ptsname(master), O_RDWR | O_NOCTTY); /* stays open, so the master never sees a hang-up */
    struct termios t;
    tcgetattr(other, &t);
    cfmakeraw(&t);
    tcsetattr(other, TCSANOW, &t);
    puts(ptsname(master));
    return master;
}

static void serve(modbus_t *ctx, modbus_mapping_t *map, useconds_t delay)
{
    uint8_t query[MODBUS_TCP_MAX_ADU_LENGTH];
    for (;;) {
        int length = modbus_receive(ctx, query);
        if (length < 0) {
            return;
        }

        if (length > 0) {
            if (delay > 0) {
                usleep(delay);
            }

            modbus_reply(ctx, query, length, map);
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        return 2;
    }

    int tcp = strcmp(argv[1], "tcp") == 0;
    useconds_t delay = (useconds_t)atoi(argv[3]);
    modbus_mapping_t *map = modbus_mapping_new(COUNT, COUNT, COUNT, COUNT);
    for (int i = 0; i < COUNT; i++) {
        map->tab_input_registers[i] = (uint16_t)(1000 + i);
    }

    modbus_t *ctx = tcp ? modbus_new_tcp("127.0.0.1", atoi(argv[2])) : modbus_new_rtu("/dev/null", 115200, 'N', 8, 1);
    modbus_set_slave(ctx, DEVICE);
    int listener = -1;
    if (tcp) {
        listener = modbus_tcp_listen(ctx, 4);
    } else {
        modbus_set_socket(ctx, open_pty());
    }

    puts("ready");
    fflush(stdout);
    while (!tcp || modbus_tcp_accept(ctx, &listener) >= 0) {
        serve(ctx, map, delay);
        if (tcp) {
            modbus_close(ctx);
        }
    }

    return 1;
}
