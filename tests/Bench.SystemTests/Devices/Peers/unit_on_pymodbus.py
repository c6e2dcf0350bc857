"""A bench with one unit, served by pymodbus. Usage: PORT moving|seized. Says "ready" when it serves.

Board at address 1: coils 0 up, 1 down; input registers 0 mA (signed), 1 mV, 2 inputs: bit 0 index, bit 1 emergency stop
(0 = pressed). Feedback at address 11: input register 0, the count. A gearmotor of first order: 12 ohm at 24 V, 263 counts/s
at 0.22 A on a ring of 800; it brakes itself when both outputs are off.
"""
import asyncio
import math
import sys
import time

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server.async_io import ModbusTcpServer

RING, INDEX_AT, INDEX_WIDTH = 800, 100, 20
VOLTS, OHMS, SPEED, RUNNING_A, TIME_CONSTANT_S = 24.0, 12.0, 263.0, 0.22, 0.026
BACK_EMF = (VOLTS - OHMS * RUNNING_A) / SPEED


class Unit:
    def __init__(self, seized):
        self.seized, self.at, self.position, self.speed, self.drive = seized, time.monotonic(), 37.0, 0.0, 0

    def follow(self):
        """Brings position and speed to this instant: the drive has been constant since the last."""
        now = time.monotonic()
        passed, self.at = now - self.at, now
        target = 0.0 if self.seized else SPEED * self.drive
        decay = math.exp(-passed / TIME_CONSTANT_S)
        self.position += target * passed + (self.speed - target) * TIME_CONSTANT_S * (1 - decay)
        self.speed = target + (self.speed - target) * decay

    def switch(self, drive):
        self.follow()
        self.drive = drive

    def count(self):
        self.follow()
        return int(math.floor(self.position)) % RING

    def registers(self):
        self.follow()
        amperes = 0.0 if self.drive == 0 else (VOLTS - BACK_EMF * self.speed * self.drive) / OHMS
        index = 1 if (self.count() - (INDEX_AT - INDEX_WIDTH // 2)) % RING < INDEX_WIDTH else 0
        return [round(1000 * amperes), round(1000 * (VOLTS - 0.2 * amperes)), 2 | index]


class Coils(ModbusSequentialDataBlock):
    def __init__(self, unit):
        super().__init__(0, [0, 0])
        self.unit = unit

    def setValues(self, address, values):
        super().setValues(address, values)
        up, down = self.values
        self.unit.switch(0 if up == down else 1 if up else -1)


class Registers(ModbusSequentialDataBlock):
    def __init__(self, read, count):
        super().__init__(0, [0] * count)
        self.read = read

    def getValues(self, address, count=1):
        return self.read()[address:address + count]


async def main(port, kind):
    unit = Unit(kind == "seized")
    none = ModbusSequentialDataBlock(0, [0])
    board = ModbusSlaveContext(co=Coils(unit), di=none, hr=none, ir=Registers(unit.registers, 3), zero_mode=True)
    feedback = ModbusSlaveContext(co=none, di=none, hr=none, ir=Registers(lambda: [unit.count()], 1), zero_mode=True)
    server = ModbusTcpServer(ModbusServerContext(slaves={1: board, 11: feedback}, single=False), address=("127.0.0.1", port))
    serving = asyncio.create_task(server.serve_forever())
    await server.serving
    print("ready", flush=True)
    await serving


asyncio.run(main(int(sys.argv[1]), sys.argv[2]))
