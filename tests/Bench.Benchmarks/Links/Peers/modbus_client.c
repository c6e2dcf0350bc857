/* A Modbus client on libmodbus, to be measured against. Usage: tcp PORT | rtu DEVICE, then reads to warm up with and reads
   to measure. Reads 10 input registers each time, checks them, and prints transactions per second. */
#include <errno.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void ask(modbus_t *ctx, int reads)
{
    uint16_t words[10];
    for (int i = 0; i < reads; i++) {
        int first = i % 100;
        if (modbus_read_input_registers(ctx, first, 10, words) != 10 || words[0] != 1000 + first) {
            fprintf(stderr, "read %d: %s\n", i, modbus_strerror(errno));
            exit(1);
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 5) {
        return 2;
    }

    int tcp = strcmp(argv[1], "tcp") == 0;
    modbus_t *ctx = tcp ? modbus_new_tcp("127.0.0.1", atoi(argv[2])) : modbus_new_rtu(argv[2], 115200, 'N', 8, 1);
    modbus_set_slave(ctx, 5);
    if (modbus_connect(ctx) != 0) {
        perror("connect");
        return 1;
    }

    ask(ctx, atoi(argv[3]));
    int reads = atoi(argv[4]);
    double begin = now_s();
    ask(ctx, reads);
    printf("%.1f\n", reads / (now_s() - begin));
    return 0;
}
