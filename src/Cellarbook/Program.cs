using Cellarbook.Cli;

return await Commands.Run(args);

/// <summary>The program; public so that tests can start it in process.</summary>
public partial class Program;
