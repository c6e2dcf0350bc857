"""Exercises a Modbus server with pymodbus. Usage: tcp|rtu-over-tcp PORT N | rtu DEVICE N. Prints transactions and mismatches."""
import random
import sys

from pymodbus.client import ModbusSerialClient, ModbusTcpClient
from pymodbus.diag_message import ReturnQueryDataRequest
from pymodbus.mei_message import ReadDeviceInformationRequest
from pymodbus.transaction import ModbusRtuFramer, ModbusSocketFramer

DEVICE, COUNT = 5, 200


def connect(kind, where):
    if kind == "rtu":
        return ModbusSerialClient(where, framer=ModbusRtuFramer, baudrate=115200, parity="N", timeout=3)
    framer = ModbusSocketFramer if kind == "tcp" else ModbusRtuFramer
    return ModbusTcpClient("127.0.0.1", port=int(where), framer=framer, timeout=3)


def main(kind, where, transactions):
    client = connect(kind, where)
    if not client.connect():
        sys.exit("no connection")
    if kind == "rtu-over-tcp":
        # Of an RTU answer on TCP this client does not know the length, and always waits the time-out.
        client.params.timeout = 0.1
    rnd = random.Random(2)
    registers, coils = [0] * COUNT, [False] * COUNT
    mismatches = 0
    for n in range(transactions):
        at = rnd.randrange(COUNT)
        many = rnd.randint(1, min(100, COUNT - at))
        words = [rnd.randrange(65536) for _ in range(many)]
        bits = [rnd.random() < 0.5 for _ in range(many)]
        what = n % 11
        if what == 0:
            right = client.read_discrete_inputs(at, many, slave=DEVICE).bits[:many] == [(at + i) % 3 == 0 for i in range(many)]
        elif what == 1:
            right = client.read_input_registers(at, many, slave=DEVICE).registers == [1000 + at + i for i in range(many)]
        elif what == 2:
            coils[at] = bits[0]
            right = not client.write_coil(at, bits[0], slave=DEVICE).isError()
        elif what == 3:
            coils[at:at + many] = bits
            right = not client.write_coils(at, bits, slave=DEVICE).isError()
        elif what == 4:
            right = client.read_coils(at, many, slave=DEVICE).bits[:many] == coils[at:at + many]
        elif what == 5:
            registers[at] = words[0]
            right = not client.write_register(at, words[0], slave=DEVICE).isError()
        elif what == 6:
            registers[at:at + many] = words
            right = not client.write_registers(at, words, slave=DEVICE).isError()
        elif what == 7:
            right = client.read_holding_registers(at, many, slave=DEVICE).registers == registers[at:at + many]
        elif what == 8:
            answer = client.read_holding_registers(5000, 1, slave=DEVICE)
            right = answer.isError() and getattr(answer, "exception_code", 0) == 2
        elif what == 9:
            answer = client.execute(ReturnQueryDataRequest(words[0], slave=DEVICE, unit=DEVICE))
            right = not answer.isError() and list(answer.message) == [words[0]]
        else:
            answer = client.execute(ReadDeviceInformationRequest(1, 0, slave=DEVICE, unit=DEVICE))
            right = not answer.isError() and answer.information[1] == b"interop"
        if not right:
            mismatches += 1
            print("wrong answer to kind", what, file=sys.stderr)
    client.close()
    print(f"transactions={transactions} mismatches={mismatches}")
    return mismatches != 0


sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3])))
