/* Exercises a Modbus server with libmodbus. Usage: tcp PORT N | rtu DEVICE N. Prints transactions and mismatches. */
#include <errno.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COUNT = 200, DEVICE = 5 };

int main(int argc, char **argv)
{
    if (argc != 4) {
        return 2;
    }

    modbus_t *ctx = strcmp(argv[1], "tcp") == 0 ? modbus_new_tcp("127.0.0.1", atoi(argv[2])) : modbus_new_rtu(argv[2], 115200, 'N', 8, 1);
    modbus_set_slave(ctx, DEVICE);
    modbus_set_response_timeout(ctx, 3, 0);
    if (modbus_connect(ctx) != 0) {
        perror("connect");
        return 1;
    }

    uint16_t registers[COUNT] = {0};
    uint8_t coils[COUNT] = {0};
    int transactions = atoi(argv[3]);
    int mismatches = 0;
    srand(3);
    for (int n = 0; n < transactions; n++) {
        int at = rand() % COUNT;
        int most = COUNT - at < 100 ? COUNT - at : 100;
        int many = 1 + rand() % most;
        uint16_t words[COUNT];
        uint8_t bits[COUNT];
        for (int i = 0; i < many; i++) {
            words[i] = (uint16_t)rand();
            bits[i] = rand() % 2;
        }

        int right = 1;
        switch (n % 11) {
        case 0:
            right = modbus_read_input_bits(ctx, at, many, bits) == many;
            for (int i = 0; i < many; i++) {
                right &= bits[i] == ((at + i) % 3 == 0);
            }
            break;
        case 1:
            right = modbus_read_input_registers(ctx, at, many, words) == many;
            for (int i = 0; i < many; i++) {
                right &= words[i] == 1000 + at + i;
            }
            break;
        case 2:
            coils[at] = bits[0];
            right = modbus_write_bit(ctx, at, bits[0]) == 1;
            break;
        case 3:
            memcpy(coils + at, bits, (size_t)many);
            right = modbus_write_bits(ctx, at, many, bits) == many;
            break;
        case 4:
            right = modbus_read_bits(ctx, at, many, bits) == many && memcmp(bits, coils + at, (size_t)many) == 0;
            break;
        case 5:
            registers[at] = words[0];
            right = modbus_write_register(ctx, at, words[0]) == 1;
            break;
        case 6:
            memcpy(registers + at, words, 2 * (size_t)many);
            right = modbus_write_registers(ctx, at, many, words) == many;
            break;
        case 7:
            right = modbus_read_registers(ctx, at, many, words) == many && memcmp(words, registers + at, 2 * (size_t)many) == 0;
            break;
        case 8:
            registers[at] = (uint16_t)((registers[at] & words[0]) | (0x1234 & ~words[0]));
            right = modbus_mask_write_register(ctx, at, words[0], 0x1234) == 1;
            break;
        case 9: {
            uint16_t read[COUNT];
            memcpy(registers + at, words, 2 * (size_t)many);
            right = modbus_write_and_read_registers(ctx, at, many, words, at, many, read) == many
                && memcmp(read, words, 2 * (size_t)many) == 0;
            break;
        }
        default:
            right = modbus_read_registers(ctx, 5000, 1, words) == -1 && errno == EMBXILADD;
            break;
        }

        if (!right) {
            mismatches++;
            fprintf(stderr, "wrong answer to kind %d: %s\n", n % 11, modbus_strerror(errno));
        }
    }

    printf("transactions=%d mismatches=%d\n", transactions, mismatches);
    return mismatches != 0;
}
