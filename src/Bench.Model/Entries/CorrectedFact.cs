namespace Bench.Model.Entries;

/// <summary>The facts of a return that a person may set right. What was measured is never among them.</summary>
public enum CorrectedFact
{
    /// <summary>Serial number.</summary>
    Serial,

    /// <summary>Part number.</summary>
    PartNumber,

    /// <summary>Return number.</summary>
    ReturnNumber,

    /// <summary>Reported symptom.</summary>
    Symptom,

    /// <summary>What the field wrote.</summary>
    FieldNote,

    /// <summary>Revision on the label.</summary>
    Revision,

    /// <summary>Date code on the label.</summary>
    DateCode,

    /// <summary>Days the unit was in service.</summary>
    DaysInService,

    /// <summary>An answer of the arrival inspection: what a person saw.</summary>
    Inspection,
}
