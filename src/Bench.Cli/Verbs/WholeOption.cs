using System.CommandLine.Parsing;
using System.Globalization;

namespace Bench.Cli.Verbs;

/// <summary>Reads an option whose value is a whole number.</summary>
internal static class WholeOption
{
    /// <summary>The number; an error that says what is allowed otherwise.</summary>
    /// <param name="argument">What was typed.</param>
    /// <param name="least">The least allowed.</param>
    public static int? Read(ArgumentResult argument, int least)
    {
        string text = argument.Tokens.Count == 1 ? argument.Tokens[0].Value : "";
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= least)
        {
            return number;
        }

        string option = argument.Parent is OptionResult { Option.Name: string name } ? name : argument.Argument.Name;
        argument.AddError($"{option} '{text}': give a whole number from {least} to {int.MaxValue}");
        return null;
    }
}
