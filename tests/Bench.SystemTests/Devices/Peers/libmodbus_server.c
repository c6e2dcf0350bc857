/* A Modbus server for interoperation tests, on libmodbus. Usage: tcp PORT | rtu DEVICE. Says "ready" when it serves. */
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COUNT = 200, DEVICE = 5 };

int main(int argc, char **argv)
{
    if (argc != 3) {
        return 2;
    }

    int tcp = strcmp(argv[1], "tcp") == 0;
    modbus_t *ctx = tcp ? modbus_new_tcp("127.0.0.1", atoi(argv[2])) : modbus_new_rtu(argv[2], 115200, 'N', 8, 1);
    modbus_mapping_t *map = modbus_mapping_new(COUNT, COUNT, COUNT, COUNT);
    for (int i = 0; i < COUNT; i++) {
        map->tab_input_registers[i] = (uint16_t)(1000 + i);
        map->tab_input_bits[i] = i % 3 == 0;
    }

    modbus_set_slave(ctx, DEVICE);
    int listener = -1;
    if (tcp) {
        listener = modbus_tcp_listen(ctx, 1);
    } else if (modbus_connect(ctx) != 0) {
        perror("connect");
        return 1;
    }

    puts("ready");
    fflush(stdout);
    if (tcp && modbus_tcp_accept(ctx, &listener) < 0) {
        return 1;
    }

    uint8_t query[MODBUS_TCP_MAX_ADU_LENGTH];
    for (;;) {
        int length = modbus_receive(ctx, query);
        if (length > 0) {
            modbus_reply(ctx, query, length, map);
        } else if (length < 0 && tcp) {
            return 0;
        }
    }
}
